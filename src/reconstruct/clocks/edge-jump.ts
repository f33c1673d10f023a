/** A clock set so early or late in the night that there are too few dithers on one side. */
import { itemAt } from '../../model/index.js';
import { FEWEST_PAUSES, PART_HABITS, type OddLength } from './jump.js';
import { runningSums, type ClockEvidence } from './likelihood.js';

/** Shorter exposures are within the tolerance of verdicts with few dithers, ms. */
const LEAST_LONE_HINT_MS = 5000;

/**
 * A jump with too few dithers on one side, inferred from an exposure that its log states seconds longer than its file:
 * either the program was slow once, or the clock was set. Without a dither on that side both are equally likely; with
 * one, it is a jump unless the dither fits better without it.
 *
 * @param offsetMs the offset that fits the other dithers
 * @param hints in the reference's time
 */
export function jumpAtTheEdge(
  evidence: ClockEvidence,
  offsetMs: number,
  hints: readonly OddLength[],
): { readonly atMs: number; readonly byMs: number } | null {
  const { pauses } = evidence;
  for (const { atMs, byMs, isFull } of hints) {
    if (!isFull || Math.abs(byMs) < LEAST_LONE_HINT_MS) continue;
    const split = pauses.filter((p) => p.moveMs < atMs).length;
    const isEarly = split < FEWEST_PAUSES;
    if (!isEarly && pauses.length - split >= FEWEST_PAUSES) continue;
    // The known offset is that of the longer side: before a jump early in the night it was less.
    const there = isEarly ? offsetMs - byMs : offsetMs + byMs;
    const [from, to] = isEarly ? [0, split] : [split, pauses.length];
    const gains = PART_HABITS.map((habit) => {
      const sums = runningSums(evidence, [offsetMs, there], habit);
      const own = (k: number): number => itemAt(itemAt(sums, to), k) - itemAt(itemAt(sums, from), k);
      return own(1) - own(0);
    });
    if (Math.max(...gains) >= 0) return { atMs, byMs };
  }
  return null;
}
