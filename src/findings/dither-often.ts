/**
 * More dithers than the stack needs.
 */
import {
  about,
  counted,
  durationMs,
  groupBy,
  interval,
  isReplayed,
  median,
  partitionPoint,
  sum,
  type DitherCycle,
  type JudgedFrame,
  type NightFacts,
  type Replay,
  type WhatIf,
  lightsOf,
} from '../model/index.js';
import { isLostToAlone } from './dithered.js';
import type { FindingModule, TrainSpan } from './finding.js';
import { bestWhatIf, exposures, ruleOf } from './trains.js';

export const ditherOften: FindingModule<{
  readonly usualEvery: number;
  readonly places: number;
  readonly minimumMinutes: number;
  readonly minimumShare: number;
}> = {
  id: 'dither-often',
  title: 'More dithers than needed',
  needs: ['dithers', 'lights'],
  // Every third frame, and a dozen positions per filter, are common practice; so is not changing what works. No source.
  defaults: { usualEvery: 3, places: 12, minimumMinutes: 5, minimumShare: 0.02 },
  find(night, { usualEvery, places, minimumMinutes, minimumShare }) {
    const trains = night.gathered.trains
      .map((t) => ({ id: t.id, lights: lightsOf(night, t.id) }))
      .filter((t) => t.lights.length > 0);
    // The train with fewest frames per dither decides: it must still get enough positions.
    const counts = trains.map((t) => ({ id: t.id, every: framesPerDither(t.lights, night.accounts.dithers) }));
    const least = counts.reduce((a, b) => (b.every < a.every ? b : a), { id: '', every: Infinity });
    const { every } = least;
    const fewest = Math.min(
      ...trains.flatMap((t) =>
        [...groupBy(t.lights, (f) => `${f.target}/${f.filter}`).values()].map((own) => own.length),
      ),
    );
    const replay = isReplayed(night.replay) && night.replay.confidence !== 'low' ? night.replay : null;
    const fewer = replay?.dither ? fewerOf(night, replay, replay.dither.frames) : null;
    // If a reliable replay finds no gain, there are not too many.
    if (replay?.dither && !fewer) return [];
    const now = fewer && replay?.dither ? replay.dither.frames : every;
    const enough = fewer?.frames ?? Math.max(1, Math.min(bestCount(night) ?? usualEvery, Math.floor(fewest / places)));
    if (!Number.isFinite(now) || now >= enough) return [];
    const surplus = night.accounts.dithers.filter(
      (_, i) => Math.floor(((i + 1) * now) / enough) === Math.floor((i * now) / enough),
    );
    const harmed = night.accounts.lights.filter((f) => isLostToAlone(f, surplus));
    const minutes = [...surplus.flatMap((cycle) => spent(cycle)), ...exposures(harmed)];
    const costMs = sum(minutes.map((m) => durationMs(m.span)));
    if (costMs < minimumMinutes * 60_000) return [];
    const winMs = fewer ? Math.round(fewer.whatIf.gain.meanMs) : costMs;
    // A usual dither rate is no fault for the sake of a few minutes.
    if (now >= usualEvery && winMs < minimumShare * keptMs(night)) return [];
    // As many as the replay makes: with less time lost, there are more frames to dither between.
    const left = fewer ? Math.round(fewer.whatIf.outcome.dithers) : night.accounts.dithers.length - surplus.length;
    const whose = trains.length > 1 ? ` of ${fewer ? (replay?.dither?.train ?? least.id) : least.id}` : '';
    return [
      {
        title: `${counted(night.accounts.dithers.length, 'dither')}, where ${left} would have been enough`,
        costMs,
        evidence: [
          `a dither every ${now === 1 ? 'frame' : `${now} frames`}${whose}; ` +
            (fewer
              ? placesLine(fewer)
              : `the filter with fewest frames has ${fewest}, so every ${enough} frames still give it ` +
                `${Math.floor(fewest / enough)} positions`),
          ...(harmed.length > 0 ? [`without them ${counted(harmed.length, 'more frame')} would have been kept`] : []),
          ...(fewer
            ? [
                `replayed with that many fewer dithers, the night keeps ${about(fewer.whatIf.gain.meanMs)} more ` +
                  'on all trains together',
              ]
            : []),
        ],
        advice:
          `Dither every ${enough} frames: ${places} positions per filter are enough for the sensor’s fixed pattern ` +
          'to average out.',
        winMs,
        ...(fewer ? { rule: ruleOf(fewer.whatIf) } : {}),
        confidence: fewer ? 'high' : 'medium',
        links: [
          { text: 'Replay', anchor: 'replay' },
          { text: 'Every dither', anchor: 'dithers' },
        ],
        minutes,
      },
    ];
  },
};

/** What all trains kept, ms of exposure. */
function keptMs({ accounts }: NightFacts): number {
  return sum(accounts.lights.flatMap((f) => (f.verdict === 'kept' ? [durationMs(f.exposure)] : [])));
}

interface Fewer {
  readonly frames: number;
  readonly whatIf: WhatIf;
}

/** Fewer dithers with a gain in the replay: those of the best combination, for consistency on the page. */
function fewerOf(night: NightFacts, { best, whatIfs }: Replay, now: number): Fewer | null {
  const rare = whatIfs.flatMap((whatIf): Fewer[] => {
    const frames = Number(/^dither-every-(\d+)$/.exec(whatIf.id)?.[1]);
    return frames > now ? [{ frames, whatIf }] : [];
  });
  // Frames of another train, which leads in the best combination, are no count for this one.
  const isLed = best?.settings.some((s) => s.startsWith('dither-lead='));
  const inBest = isLed
    ? undefined
    : rare.find(({ whatIf }) => whatIf.settings.every((s) => best?.settings.includes(s)));
  if (inBest && inBest.whatIf.outside.length === 0 && inBest.whatIf.gain.lowMs > 0) return inBest;
  const found = bestWhatIf(night, (w) => rare.some(({ whatIf }) => whatIf.id === w.id));
  return rare.find(({ whatIf }) => whatIf.id === found?.id) ?? null;
}

/** Frames between two dithers in the best combination, for consistency on the page; `null` if it has none. */
function bestCount({ replay }: NightFacts): number | null {
  const settings = isReplayed(replay) ? (replay.best?.settings ?? []) : [];
  const [frames] = settings.flatMap((setting) => /^dither-every=(\d+)$/.exec(setting)?.[1] ?? []);
  return frames === undefined ? null : Number(frames);
}

/** `every 4 frames still leave 13 places for G on wren, the fewest`. */
function placesLine({ frames, whatIf }: Fewer): string {
  const [least] = [...whatIf.outcome.places].sort((a, b) => a.places - b.places);
  return least === undefined
    ? `every ${frames} frames leave enough positions`
    : `every ${frames} frames still leave ${Math.round(least.places)} positions for ${least.filter} on ` +
        `${least.train}, the fewest`;
}

/** Median frames of a train between two neighbouring dithers; ∞ if there are fewer than two. */
function framesPerDither(lights: readonly JudgedFrame[], dithers: NightFacts['accounts']['dithers']): number {
  const counts = dithers
    .slice(1)
    .map((cycle, i) => begun(lights, cycle.beginMs) - begun(lights, dithers[i]?.beginMs ?? -Infinity));
  const some = counts.filter((c) => c > 0);
  return some.length < 2 ? Infinity : Math.round(median(some));
}

function begun(lights: readonly JudgedFrame[], atMs: number): number {
  return partitionPoint(lights, (f) => f.exposure.startMs >= atMs);
}

/** What one dither took of each train: its wait, the move, the settling. */
function spent(cycle: DitherCycle): TrainSpan[] {
  const endMs = cycle.settle?.endMs ?? cycle.move.endMs;
  return Object.entries(cycle.waits).flatMap(([train, wait]): TrainSpan[] =>
    wait ? [{ train, span: interval(wait.readyMs, Math.max(wait.readyMs, endMs)) }] : [],
  );
}
