/**
 * What several findings look up: a train's lights, its usual exposure and pause, the exposures of frames as train time.
 */
import { durationMs, isReplayed, median, sum, type JudgedFrame, type NightFacts, type WhatIf } from '../model/index.js';
import type { TrainSpan } from './finding.js';

/** Lights of one train, sorted by start. */
export function lightsOf(night: NightFacts, train: string): JudgedFrame[] {
  return night.accounts.lights.filter((f) => f.train === train);
}

/** Exposure asked for, ms. */
export function askedMs(frame: JudgedFrame): number {
  return frame.askedMs ?? durationMs(frame.exposure);
}

/** Median of the exposures asked for, ms; `NaN` without lights. */
export function usualExposureMs(lights: readonly JudgedFrame[]): number {
  return median(lights.map(askedMs));
}

/** Longer rests between two lights are no pause but something else, ms. Common practice, no source. */
const LONGEST_PAUSE_MS = 60_000;

/**
 * The usual pause between two neighbouring lights with no dither, refocus, filter change or pointing between them, ms;
 * `NaN` where there is none.
 */
export function usualPauseMs(night: NightFacts, lights: readonly JudgedFrame[]): number {
  const train = lights[0]?.train;
  const busy = night.timeline.activities.filter(
    (a) =>
      (a.train === undefined || a.train === train) &&
      ['dither-move', 'settling', 'focus', 'filter', 'slew', 'centre', 'flip', 'hold', 'guiding-start'].includes(
        a.kind,
      ),
  );
  const pauses = lights.slice(1).flatMap((after, i) => {
    const before = lights[i];
    if (!before) return [];
    const [fromMs, toMs] = [before.exposure.endMs, after.exposure.startMs];
    const isMere =
      toMs >= fromMs &&
      toMs - fromMs <= LONGEST_PAUSE_MS &&
      !busy.some((a) => a.span.startMs < toMs && a.span.endMs > fromMs);
    return isMere ? [toMs - fromMs] : [];
  });
  return median(pauses);
}

/** Exposure time of frames, ms. */
export function exposedMs(frames: readonly JudgedFrame[]): number {
  return sum(frames.map((f) => durationMs(f.exposure)));
}

/** The exposures of frames as train time. */
export function exposures(frames: readonly JudgedFrame[]): TrainSpan[] {
  return frames.map((f) => ({ train: f.train, span: f.exposure }));
}

/** Gains below this are not worth a change, ms. */
const CLEAR_MS = 180_000;
/** What-ifs that gain this share of what the best one gains are as good: the first of them changes least. */
const AS_GOOD = 0.75;

/** The what-if to advise among those asked for, where the night was replayed and one clearly gains: the lesser change of those about as good as the best. */
export function bestWhatIf(night: NightFacts, wanted: (whatIf: WhatIf) => boolean): WhatIf | null {
  if (!isReplayed(night.replay) || night.replay.confidence === 'low') return null;
  const clear = night.replay.whatIfs.filter((w) => wanted(w) && w.gain.lowMs > 0 && w.gain.meanMs >= CLEAR_MS);
  const most = Math.max(0, ...clear.map((w) => w.gain.meanMs));
  return clear.find((w) => w.gain.meanMs >= AS_GOOD * most) ?? null;
}
