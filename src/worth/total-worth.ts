/** The worth of one target's, filter's and train's kept frames. */
import {
  durationMs,
  sum,
  WORTH_DOUBTS,
  type FrameWorth,
  type SubLength,
  type TotalWorth,
  type WorthOrigin,
} from '../model/index.js';
import type { MaybeWeighed } from './maybe-weighed.js';
import { bestMeanSize, lowersMean, plainMeanWorth, stacksByLength } from './stack.js';

/**
 * Sums kept frames with a worth.
 *
 * @param kept kept frames of one target, filter and train
 * @param reference its reference frame
 * @returns `null` when none is kept, or the worth of one is unknown: a part would be mistaken for the whole
 */
export function totalWorth(
  kept: readonly MaybeWeighed[],
  reference: Pick<TotalWorth, 'referenceMs' | 'zenith'>,
  sub: SubLength | null,
): TotalWorth | null {
  const weighed = kept.flatMap(({ id, exposure, worth }) =>
    worth ? [{ id, exposureMs: durationMs(exposure), worth }] : [],
  );
  const first = weighed[0];
  if (!first || weighed.length < kept.length) return null;
  const means = stacksByLength(weighed).map(plainMean);
  return {
    effectiveMs: sum(weighed.map(({ worth }) => worth.effectiveMs)),
    lowMs: sum(weighed.map(({ exposureMs, worth }) => exposureMs * worth.lowShare)),
    highMs: sum(weighed.map(({ exposureMs, worth }) => exposureMs * worth.highShare)),
    doubts: WORTH_DOUBTS.filter((doubt) => weighed.some(({ worth }) => worth.doubts.includes(doubt))),
    moonLossMs: sum(weighed.map(({ exposureMs, worth }) => exposureMs * (worth.moonlessShare - worth.share))),
    moonShutterMs: sum(weighed.map(({ exposureMs, worth }) => exposureMs * (1 - worth.share / worth.moonlessShare))),
    plainMeanMs: sum(means.map(({ allMs }) => allMs)),
    bestMeanMs: sum(means.map(({ bestMs }) => bestMs)),
    marginal: means
      .flatMap(({ marginal }) => marginal)
      .sort((a, b) => a.worth.share - b.worth.share)
      .map(({ id }) => id),
    ...reference,
    noise: first.worth.noise,
    sky: common(
      weighed.map(({ worth }) => worth),
      (worth) => worth.skyFrom,
    ),
    transparency: common(
      weighed.map(({ worth }) => worth),
      (worth) => worth.transparencyFrom,
    ),
    sub,
  };
}

interface Weighed {
  readonly id: string;
  readonly exposureMs: number;
  readonly worth: FrameWorth;
}

/** A plain mean of a stack: with all its frames, and without those that lower it. */
function plainMean(stack: readonly Weighed[]) {
  const bestFirst = [...stack].sort((a, b) => b.worth.effectiveMs - a.worth.effectiveMs);
  const effective = bestFirst.map(({ worth }) => worth.effectiveMs);
  const best = effective.slice(0, bestMeanSize(effective));
  return {
    allMs: plainMeanWorth(effective),
    bestMs: plainMeanWorth(best),
    marginal: bestFirst.slice(best.length).filter(({ worth }) => lowersMean(worth.effectiveMs, best)),
  };
}

function common(worths: readonly FrameWorth[], origin: (worth: FrameWorth) => WorthOrigin): WorthOrigin | 'mixed' {
  const origins = new Set(worths.map(origin));
  const [only] = origins;
  return origins.size === 1 && only ? only : 'mixed';
}
