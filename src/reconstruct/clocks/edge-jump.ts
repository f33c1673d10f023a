/**
 * A clock set so early or so late in the night that dithers on one side of it cannot tell.
 */
import { itemAt } from '../../model/index.js';
import { FEWEST_PAUSES, PART_HABITS, type OddLength } from './jump.js';
import { runningSums, type ClockEvidence } from './likelihood.js';

/** Shorter ones are within the leeway that verdicts have where few dithers tell, ms. */
const LEAST_LONE_HINT_MS = 5000;

/**
 * A jump that too few dithers on one side of it can tell, by an exposure that its log calls seconds longer than its
 * file: the program was slow once, or the clock was set. With no dither on that side both are as likely; with one,
 * it is a jump unless the dither fits better without.
 *
 * @param offsetMs that fits the other dithers
 * @param hints by the reference's time
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
    // What is known is the offset of the longer side: before a jump early in the night it was less.
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
