/**
 * Which clock is right where several differ: the time that most trains' clocks agree on, else the reference's.
 */
import type { ClockSource } from '../../model/index.js';

/** One clock's place relative to the reference, ms. */
export interface ComparedClock {
  readonly train: string;
  readonly source: ClockSource;
  readonly aheadMs: number;
  readonly uncertaintyMs: number;
  /** Whether its own headers say that it is kept by a receiver or a time server. */
  readonly isVouched?: boolean;
}

/** Clocks closer than this agree, ms. */
const AGREEING_MS = 1000;

/** The right time, and what says so. */
export interface RightTime {
  /** How far it is ahead of the reference, ms. */
  readonly aheadMs: number;
  /** Whether that is more than the reference's own word. */
  readonly isAbsolute: boolean;
  /** In words, where it is neither the reference's word nor a majority. */
  readonly by?: string;
}

/**
 * Finds the right time among clocks.
 *
 * @param clocks all whose place is known, the reference at 0 among them
 * @param isExcluded whether the sky forbids that the right time is so far ahead of the reference, ms
 */
export function rightTime(
  clocks: readonly ComparedClock[],
  isExcluded: (aheadMs: number) => boolean = () => false,
): RightTime {
  const vouched = clocks.filter((c) => c.isVouched);
  const [first] = vouched;
  // Of two that are vouched for and differ, neither is believed for that.
  if (first && vouched.every((c) => isAgreeing(c, first)))
    return {
      aheadMs: nearZero(first.aheadMs),
      isAbsolute: true,
      by: `the headers of ${first.train}, which state how true their clock is`,
    };
  // Where they show the same the sky, which takes long to ask, cannot tell them apart.
  if (clocks.every((c) => c.aheadMs === clocks[0]?.aheadMs)) return byMajority(clocks);
  const possible = clocks.filter((c) => !isExcluded(c.aheadMs));
  // Where every clock puts lights into daylight the date or the place is wrong, and the sky says nothing of clocks.
  if (possible.length === 0 || possible.length === clocks.length) return byMajority(clocks);
  const right = byMajority(possible);
  return {
    ...right,
    ...(right.isAbsolute ? { by: 'the sky: by any other clock lights stand in daylight or below the horizon' } : {}),
  };
}

function byMajority(clocks: readonly ComparedClock[]): RightTime {
  const reference = clocks.find((c) => c.aheadMs === 0);
  const groups = clocks
    .map((centre) => {
      const members = clocks.filter((c) => isAgreeing(c, centre));
      return { aheadMs: centre.aheadMs, trains: new Set(members.map((m) => m.train)).size, clocks: members.length };
    })
    .sort((a, b) => b.trains - a.trains || b.clocks - a.clocks || Math.abs(a.aheadMs) - Math.abs(b.aheadMs));
  const best = groups[0];
  if (!best) return { aheadMs: 0, isAbsolute: false };
  const rival = groups.find((g) => Math.abs(g.aheadMs - best.aheadMs) > 2 * AGREEING_MS);
  const undecidedMs = reference ? 0 : best.aheadMs;
  if (!rival) return { aheadMs: undecidedMs, isAbsolute: true };
  // Two clocks of one computer share its error, so that trains count before clocks; a draw leaves the reference.
  const wins = best.trains > rival.trains;
  if (!wins) return { aheadMs: undecidedMs, isAbsolute: false };
  return { aheadMs: nearZero(best.aheadMs), isAbsolute: true };
}

function nearZero(ms: number): number {
  return Math.abs(ms) <= AGREEING_MS ? 0 : ms;
}

function isAgreeing(a: ComparedClock, b: ComparedClock): boolean {
  return Math.abs(a.aheadMs - b.aheadMs) <= AGREEING_MS + a.uncertaintyMs + b.uncertaintyMs;
}
