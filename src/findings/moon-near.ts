/** Frames taken closer to the Moon than their filter tolerates. */
import {
  counted,
  duration,
  durationMs,
  groupBy,
  isDeepRedLine,
  listed,
  median,
  midpointMs,
  MOON_DISTANCE_DEG,
  moonDistanceKind,
  moonDistanceShare,
  percent,
  statedFilter,
  sum,
  type JudgedFrame,
  type NightFacts,
  ownValue,
  lightsOf,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { exposedMs } from './trains.js';
import { moonLoss, moonlessDarkness, moonlessHours } from './moonless-hours.js';
import { firstOf, frameLinks } from './wording.js';

export const moonNear: FindingModule<{
  readonly broadbandDeg: number;
  readonly oxygenDeg: number;
  readonly redDeg: number;
  readonly minimumIllumination: number;
  readonly minimumFrames: number;
  readonly minimumWinMinutes: number;
}> = {
  id: 'moon-near',
  title: 'Moon too near for the filter',
  needs: ['target-place', 'lights', 'times-by-the-sky'],
  // Distances to keep from a full Moon, less with a smaller one: common practice, no source.
  defaults: {
    broadbandDeg: MOON_DISTANCE_DEG.broad,
    oxygenDeg: MOON_DISTANCE_DEG.blueLine,
    redDeg: MOON_DISTANCE_DEG.redLine,
    minimumIllumination: 0.25,
    minimumFrames: 3,
    minimumWinMinutes: 5,
  },
  find(night, { broadbandDeg, oxygenDeg, redDeg, minimumIllumination, minimumFrames, minimumWinMinutes }) {
    const keep = { broad: broadbandDeg, blueLine: oxygenDeg, redLine: redDeg };
    const wanted = ({ train, filter = '', sky }: JudgedFrame): number =>
      keep[moonDistanceKind(statedFilter(filter, train, night.gathered.cameras))] *
      moonDistanceShare(sky?.moonIllumination ?? 0);
    const near = night.accounts.lights.filter(
      (f) =>
        f.verdict !== 'lost' &&
        f.sky &&
        f.sky.moonAltitudeDeg > 0 &&
        f.sky.moonIllumination >= minimumIllumination &&
        f.sky.moonSeparationDeg < wanted(f),
    );
    return [...groupBy(near, (f) => JSON.stringify([f.train, f.target])).values()].flatMap((frames) => {
      const [first] = frames;
      if (!first || frames.length < minimumFrames) return [];
      const { train, target } = first;
      const filters = groupBy(frames, (f) => f.filter ?? 'no filter');
      const lostMs = Math.round(sum(frames.map((f) => moonLoss(f, night) * durationMs(f.exposure))));
      const name = target ?? 'this target';
      const leastMs = minimumWinMinutes * 60_000;
      const better = betterTarget(frames, night, leastMs);
      const later = moonlessHours(frames, night, leastMs);
      const moonless = later && (better === null || later.winMs >= better.winMs) ? later : null;
      return [
        {
          title:
            `${train} imaged ${listed([...filters.keys()])}${target === undefined ? '' : ` of ${target}`} too near ` +
            'the Moon',
          // The moonlight's cost is counted once, in the Moon's own finding.
          costMs: 0,
          price: `${counted(frames.length, 'sub')}`,
          frames: frames.length,
          evidence: [
            ...firstOf(
              [...filters].map(
                ([filter, own]) =>
                  `${filter}: ${counted(own.length, 'frame')}, ${duration(exposedMs(own))}, ` +
                  `${median(own.flatMap((f) => f.sky?.moonSeparationDeg ?? [])).toFixed(0)}° from a Moon ` +
                  `${percent(median(own.flatMap((f) => f.sky?.moonIllumination ?? [])))} lit; at least ` +
                  `${median(own.map(wanted)).toFixed(0)}° is common practice`,
              ),
            ),
            lostMs === 0
              ? 'what the moonlight cost is not known: these frames have no effective integration'
              : `by the model the Moon cost ${duration(lostMs)} of these frames, which is part of what moonlight ` +
                'cost the night',
            ...(moonless
              ? [
                  `${moonless.when} the Moon was down, ${name} was above its limit, and ${train} ` +
                    `took nothing: the same exposures would have lost ${duration(moonless.winMs)} less to it then`,
                ]
              : []),
            ...(better && !moonless
              ? [
                  `at the same times ${better.target} was ${better.separationDeg.toFixed(0)}° from the Moon: ` +
                    `the same exposures there would have lost ${duration(better.winMs)} less to it`,
                ]
              : []),
          ],
          advice: moonless
            ? `Image ${listed([...filters.keys()])} of ${name} ${moonless.when}: ` +
              `${duration(moonless.freeMs)} of such darkness went unused.`
            : better
              ? `While the Moon is up, image ${better.target}, and ${whenInstead(first, name, night)}.`
              : `Keep ${listed([...filters.keys()])} on ${name} for hours without the ` +
                `Moon${bearing(night, train, filters)}, or choose a target at least ` +
                `${median(frames.map(wanted)).toFixed(0)}° from it.`,
          winMs: moonless?.winMs ?? better?.winMs ?? 0,
          confidence: 'low' as const,
          links: [
            { text: 'Sky', anchor: 'sky' },
            { text: 'Effective integration', anchor: 'effective' },
            ...frameLinks(frames, night, 3),
          ],
        },
      ];
    });
  },
};

/** When to take a target instead: on this night where it had darkness without the Moon, else on another. */
function whenInstead(first: JudgedFrame, name: string, night: NightFacts): string {
  const [moonless] = moonlessDarkness(first, night).reverse();
  if (moonless === undefined)
    return `keep ${name} for another night: on this one the Moon was up whenever it was above its limit in the dark`;
  const lasting = duration(durationMs(moonless));
  // A Moon that has just risen brightens nothing yet: hours that began before the frames are those before moonrise.
  return moonless.startMs > first.exposure.startMs
    ? `come back to ${name} when it is down (${lasting})`
    : `take ${name} before it rises (${lasting})`;
}

/**
 * The other target of the night on which these frames would have lost least to the Moon, by the same model: moonlight
 * there versus here, with the same other noise. `null` if none would have saved enough.
 */
function betterTarget(
  frames: readonly JudgedFrame[],
  night: NightFacts,
  leastMs: number,
): { target: string; winMs: number; separationDeg: number } | null {
  const places = night.sky.curves.map((curve) => {
    const light = night.worth?.moonlight.find((m) => m.target === curve.target)?.points ?? [];
    const wins = frames.flatMap((frame) => {
      const atMs = midpointMs(frame.exposure);
      const brightening = nearest(light, atMs)?.brighteningMag;
      const here = ownValue(night.worth?.frames, frame.id)?.moonBrighteningMag;
      const separationDeg = nearest(curve.points, atMs)?.moonSeparationDeg;
      const isUp = curve.up.some((u) => u.startMs <= atMs && atMs < u.endMs);
      if (frame.target === curve.target || !isUp || brightening === undefined || separationDeg === undefined) return [];
      if (here === undefined || here <= 0) return [];
      // Moonlight in units of the moonless sky is 10^(0.4 m) − 1; the fraction lost is moonlight ÷ (moonlight + the
      // rest).
      const ratio = (10 ** (0.4 * brightening) - 1) / (10 ** (0.4 * here) - 1);
      const lost = moonLoss(frame, night);
      const there = (ratio * lost) / (1 - lost + ratio * lost);
      return [{ ms: (lost - there) * durationMs(frame.exposure), deg: separationDeg }];
    });
    // A target that was up for part of the time only is no alternative for all of the frames.
    const isWhole = wins.length >= 0.8 * frames.length;
    return {
      target: curve.target,
      winMs: isWhole ? Math.round(sum(wins.map((w) => w.ms))) : 0,
      separationDeg: median(wins.map((w) => w.deg)),
    };
  });
  const [best] = places.sort((a, b) => b.winMs - a.winMs);
  return best && best.winMs >= leastMs ? best : null;
}

function nearest<T extends { readonly atMs: number }>(points: readonly T[], atMs: number): T | undefined {
  return points.reduce<T | undefined>(
    (best, p) => (best === undefined || Math.abs(p.atMs - atMs) < Math.abs(best.atMs - atMs) ? p : best),
    undefined,
  );
}

/** Deep red lines that the train took on this night tolerate the Moon better than the affected frames. */
function bearing(night: NightFacts, train: string, near: ReadonlyMap<string, unknown>): string {
  const own = new Set(lightsOf(night, train).flatMap((f) => f.filter ?? []));
  const red = [...own].filter(
    (filter) => isDeepRedLine(statedFilter(filter, train, night.gathered.cameras)) && !near.has(filter),
  );
  return red.length > 0 ? `; ${listed(red)} ${red.length === 1 ? 'tolerates' : 'tolerate'} it better` : '';
}
