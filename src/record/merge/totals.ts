/**
 * Totals of a record, summed up from its frames.
 */
import type { Counting, VerdictTally } from '../../model/index.js';
import type { FrameRecord, SessionRecord } from '../schema.js';

type TotalRecord = SessionRecord['totals'][number];

interface Sum {
  readonly target: string;
  readonly filter: string;
  readonly train: string;
  readonly frames: { -readonly [K in keyof VerdictTally]: number };
  readonly ms: { -readonly [K in keyof VerdictTally]: number };
}

/**
 * Frames and milliseconds per target, filter and train, in order of first appearance.
 *
 * @param counting `effective` counts a kept frame by its effective time where that was measured; all else by the clock
 */
export function sumFrames(frames: readonly FrameRecord[], counting: Counting = 'clock'): Sum[] {
  const sums = new Map<string, Sum>();
  for (const { target, filter, train, verdict, seconds, ...rest } of frames) {
    const key = `${target ?? ''}\n${filter ?? ''}\n${train}`;
    let sum = sums.get(key);
    if (!sum) {
      sum = { target: target ?? '', filter: filter ?? '', train, frames: zero(), ms: zero() };
      sums.set(key, sum);
    }
    const ms = Math.round(seconds * 1000);
    sum.frames.taken += 1;
    sum.frames[verdict] += 1;
    sum.ms.taken += ms;
    sum.ms[verdict] += verdict === 'kept' && counting === 'effective' ? (measuredEffectiveMs(rest) ?? ms) : ms;
  }
  return [...sums.values()];
}

/**
 * A frame's effective time where sky and air were measured; else `null`: a model of a clear sky is no count towards a
 * goal.
 */
export function measuredEffectiveMs({
  effectiveSeconds,
  effectiveFrom,
}: Pick<FrameRecord, 'effectiveSeconds' | 'effectiveFrom'>): number | null {
  return effectiveFrom === 'measured' && effectiveSeconds != null ? Math.round(effectiveSeconds * 1000) : null;
}

/** The same as the record has it. */
export function totalsOf(frames: readonly FrameRecord[]): TotalRecord[] {
  return sumFrames(frames).map(({ ms, ...rest }) => ({
    ...rest,
    seconds: { taken: ms.taken / 1000, kept: ms.kept / 1000, doubtful: ms.doubtful / 1000, lost: ms.lost / 1000 },
  }));
}

function zero(): Sum['frames'] {
  return { taken: 0, kept: 0, doubtful: 0, lost: 0 };
}
