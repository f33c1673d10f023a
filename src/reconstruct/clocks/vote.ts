/** Which clock is right if several differ: the time that most trains' clocks agree on, else the reference's. */
import type { ClockSource } from '../../model/index.js';

/** One clock's offset from the reference, ms. */
export interface ComparedClock {
  readonly train: string;
  readonly source: ClockSource;
  readonly aheadMs: number;
  readonly uncertaintyMs: number;
  /** Whether its own headers say that it is synchronised with a receiver or a time server. */
  readonly isVouched?: boolean;
}

/** Clocks closer than this agree, ms. */
const AGREEING_MS = 1000;

/** The right time, and the reason. */
export interface RightTime {
  /** How far it is ahead of the reference, ms. */
  readonly aheadMs: number;
  /** Whether that is more than the reference's own claim. */
  readonly isAbsolute: boolean;
  /** In words, if it is neither the reference's claim nor a majority. */
  readonly by?: string;
}

/**
 * Finds the right time among clocks.
 *
 * @param clocks all with a known offset, including the reference at 0
 * @param isExcluded whether the sky excludes that the right time is this far ahead of the reference, ms
 */
export function rightTime(
  clocks: readonly ComparedClock[],
  isExcluded: (aheadMs: number) => boolean = () => false,
): RightTime {
  const vouched = clocks.filter((c) => c.isVouched);
  const [first] = vouched;
  // If two synchronised clocks differ, neither is trusted for that reason.
  if (first && vouched.every((c) => isAgreeing(c, first)))
    return {
      aheadMs: nearZero(first.aheadMs),
      isAbsolute: true,
      by: `the headers of ${first.train}, which state how true their clock is`,
    };
  // If they show the same, the sky, which takes long to query, cannot distinguish them.
  if (clocks.every((c) => c.aheadMs === clocks[0]?.aheadMs)) return byMajority(clocks);
  const possible = clocks.filter((c) => !isExcluded(c.aheadMs));
  // If every clock puts lights into daylight, the date or the site is wrong, and the sky says nothing about clocks.
  if (possible.length === 0 || possible.length === clocks.length) return byMajority(clocks);
  const right = byMajority(possible);
  return {
    ...right,
    ...(right.isAbsolute ? { by: 'the sky: by any other clock lights are in daylight or below the horizon' } : {}),
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
  // Two clocks of one computer share its error, so trains count before clocks; in a tie the reference wins.
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
