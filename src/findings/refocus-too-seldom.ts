/** Stars that grew without a refocus. */
import {
  counted,
  duration,
  durationMs,
  groupByAll,
  listed,
  median,
  percent,
  sum,
  type JudgedFrame,
  type NightFacts,
  lightsOf,
  itemAt,
} from '../model/index.js';
import { arrivedLight, DIM_SHARE } from './arrived-light.js';
import type { FindingModule } from './finding.js';
import { theilSen } from './robust-line.js';
import { asRecorded, sizedFrames, type SizedFrame } from './star-size.js';
import {
  FEW_FRAMES,
  SMOOTHED,
  baseOf,
  costEvidence,
  grownFrom,
  refocusWin,
  swollenCostMs,
  swollenMinutes,
  winEvidence,
  type SwollenStretch,
} from './swollen.js';
import { betweenUnlogged } from './unlogged-refocus.js';
import { clock, firstOf, frameLinks } from './wording.js';

/** An interval of one filter between two refocuses. */
interface Stretch extends SwollenStretch {
  readonly filter: string;
  /** The frame from which the stars were small again without a logged refocus. */
  readonly until?: JudgedFrame | undefined;
}

export const refocusTooSeldom: FindingModule<{
  readonly growth: number;
  readonly minimumFrames: number;
  readonly minimumMinutes: number;
}> = {
  id: 'refocus-too-seldom',
  title: 'Stars grown without a refocus',
  needs: ['sized-stars'],
  // Refocus when stars have grown by a tenth: common practice, no source.
  defaults: { growth: 0.1, minimumFrames: 3, minimumMinutes: 5 },
  find(night, { growth, minimumFrames, minimumMinutes }) {
    return night.gathered.trains.flatMap(({ id }) => {
      const stretches = stretchesOf(night, id, growth).filter((s) => s.swollen.length >= minimumFrames);
      const swollen = stretches.flatMap((s) => s.swollen);
      const costMs = Math.round(swollenCostMs(swollen));
      if (costMs < minimumMinutes * 60_000) return [];
      const frames = swollen.map((s) => s.frame);
      const win = refocusWin(night, id, stretches, growth);
      const dim = dimAt(swollen.at(-1)?.frame, night);
      const hasAirMass = frames.every(({ sky }) => sky !== null);
      const hasFocused = night.timeline.activities.some((a) => a.kind === 'focus' && a.train === id);
      const failed = failedAmong(night, id, frames);
      return [
        {
          title:
            `${id}’s stars grew by more than ${percent(growth)} in ${counted(frames.length, 'frame')} without a ` +
            `refocus${failed.length === 0 ? '' : ' that worked'}`,
          costMs,
          frames: frames.length,
          evidence: [
            ...firstOf(stretches.map((s) => describe(s, night))),
            ...(!night.timeline.headersOnly && !hasFocused ? [`${id} was not refocused on this night`] : []),
            ...(dim === null
              ? []
              : [`meanwhile no more than ${percent(dim)} of the light arrived: dew or haze makes stars larger too`]),
            `${costEvidence(swollen)}${hasAirMass ? '; growth that the air mass explains is left out' : ''}`,
            ...failedLine(failed, night),
            failed.length > 0
              ? 'where refocuses fail, what timely ones would gain is not known'
              : hasAirMass
                ? winEvidence(win, growth)
                : 'no air mass is known: stars also grow as a target sinks, so no gain is claimed',
          ],
          advice:
            (dim === null ? '' : `Look for dew on ${id} first. `) +
            (failed.length === 0
              ? ''
              : `Find out why ${id} could not be focused: a focuser that slips or is at its end, steps too small ` +
                'for how far out it was, too few stars. ') +
            `Refocus ${id} when its stars have grown by ${percent(growth)}.${temperatureStep(night, id, growth)}`,
          ...(hasAirMass && failed.length === 0 ? { winMs: win.winMs } : {}),
          // Seeing makes stars grow as well.
          confidence: hasFocused && hasAirMass ? ('medium' as const) : ('low' as const),
          links: [{ text: 'Stars', anchor: 'stars' }, ...frameLinks(frames, night, 3)],
          minutes: swollenMinutes(stretches),
        },
      ];
    });
  },
};

/** `2 refocuses failed meanwhile, at 22:30 and 23:23`. */
function failedLine(atMs: readonly number[], night: NightFacts): string[] {
  if (atMs.length === 0) return [];
  const when = listed(atMs.map((ms) => clock(ms, night)));
  return [`${counted(atMs.length, 'refocus', 'refocuses')} failed meanwhile, at ${when}`];
}

/** When refocuses of a train failed between the first and last of some frames, UTC ms. */
function failedAmong({ timeline }: NightFacts, train: string, frames: readonly JudgedFrame[]): number[] {
  const fromMs = Math.min(...frames.map(({ exposure }) => exposure.startMs));
  const untilMs = Math.max(...frames.map(({ exposure }) => exposure.endMs));
  const failed = timeline.activities.flatMap((a) =>
    a.kind === 'focus' && a.train === train && a.facts?.ok === false ? [a.span.startMs] : [],
  );
  return failed.filter((ms) => ms >= fromMs && ms < untilMs);
}

/** The fraction of light that arrived when the stars were largest; `null` if that was most of it, or not measured. */
function dimAt(frame: JudgedFrame | undefined, night: NightFacts): number | null {
  const arrived = frame === undefined ? null : arrivedLight(frame, lightsOf(night, frame.train), night);
  return arrived !== null && arrived < DIM_SHARE ? arrived : null;
}

/** Intervals between refocuses, per filter, with the swollen frames at their ends. */
function stretchesOf(night: NightFacts, train: string, growth: number): Stretch[] {
  // A failed one left the stars as they were.
  const runs = night.timeline.activities.filter(
    (a) => a.kind === 'focus' && a.train === train && a.facts?.ok !== false,
  );
  const sized = sizedFrames(night, train).map(asRecorded);
  const after = (f: JudgedFrame): number => runs.filter((r) => r.span.endMs <= f.exposure.startMs + 1000).length;
  return groupByAll(sized, ({ frame }) => [after(frame), frame.filter ?? '', frame.target ?? '']).flatMap((all) => {
    const parts = betweenUnlogged(all);
    return parts.flatMap((own, i) => swollenAtEnd(own, growth, parts[i + 1]?.[0]?.frame));
  });
}

/** The swollen frames at the end of an interval, and the frame from which on their stars were small again. */
function swollenAtEnd(own: readonly SizedFrame[], growth: number, until: JudgedFrame | undefined): Stretch[] {
  if (own.length < 2 * FEW_FRAMES) return [];
  const base = baseOf(own);
  const grown = own.map((s) => grownFrom(base, s));
  // The median of neighbours: one bad frame is no drift.
  const reach = Math.max(1, Math.min(SMOOTHED, Math.floor(own.length / 8)));
  const smooth = grown.map((_, i) => median(grown.slice(Math.max(0, i - reach), i + reach + 1).map((s) => s.growth)));
  const lastGood = smooth.findLastIndex((by) => by <= growth);
  return [{ filter: own[0]?.frame.filter ?? '', startGrowth: 0, swollen: grown.slice(lastGood + 1), until }];
}

function describe({ filter, swollen, until }: Stretch, night: NightFacts): string {
  const first = itemAt(swollen, 0);
  const last = itemAt(swollen, swollen.length - 1);
  return (
    `${filter}: ${percent(median(swollen.slice(-FEW_FRAMES).map((s) => s.growth)))} larger by ` +
    `${clock(last.frame.exposure.endMs, night)}, above the limit from ` +
    `${clock(first.frame.exposure.startMs, night)} on ` +
    `(${duration(sum(swollen.map((s) => durationMs(s.frame.exposure))))} of exposure)` +
    (until === undefined ? '' : `; small again from ${clock(until.exposure.startMs, night)} on, which no log explains`)
  );
}

/** The temperature change that makes stars grow by the limit, if the night shows one. */
function temperatureStep(night: NightFacts, train: string, growth: number): string {
  const points = sizedFrames(night, train).flatMap(({ frame: { header }, size }) =>
    header?.focusTemperatureC === undefined ? [] : [{ x: header.focusTemperatureC, y: size }],
  );
  const line = theilSen(points);
  const base = median(points.map((p) => p.y));
  if (!line || Math.abs(line.slope) < 1e-9) return '';
  const degrees = (growth * base) / Math.abs(line.slope);
  return degrees <= 6 ? ` On this night that took ${degrees.toFixed(1)} °C.` : '';
}
