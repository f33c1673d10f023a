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
  /** Whether a receiver or the rig file vouches for it. */
  readonly isVouched?: boolean;
}

/** Clocks closer than this agree, ms. */
const AGREEING_MS = 1000;

/**
 * Finds the right time among clocks.
 *
 * @param clocks all whose place is known, the reference at 0 among them
 * @returns how far the right time is ahead of the reference, ms, and whether that is more than the reference's word
 */
export function rightTime(clocks: readonly ComparedClock[]): { aheadMs: number; isAbsolute: boolean } {
  const vouched = clocks.find((c) => c.isVouched);
  if (vouched) return { aheadMs: vouched.aheadMs, isAbsolute: true };
  const groups = clocks
    .map((centre) => {
      const members = clocks.filter((c) => isAgreeing(c, centre));
      return { aheadMs: centre.aheadMs, trains: new Set(members.map((m) => m.train)).size, clocks: members.length };
    })
    .sort((a, b) => b.trains - a.trains || b.clocks - a.clocks || Math.abs(a.aheadMs) - Math.abs(b.aheadMs));
  const best = groups[0];
  if (!best) return { aheadMs: 0, isAbsolute: false };
  const rival = groups.find((g) => Math.abs(g.aheadMs - best.aheadMs) > 2 * AGREEING_MS);
  if (!rival) return { aheadMs: 0, isAbsolute: true };
  // Two clocks of one computer share its error, so that trains count before clocks; a draw leaves the reference.
  const wins = best.trains > rival.trains;
  if (!wins) return { aheadMs: 0, isAbsolute: false };
  return { aheadMs: Math.abs(best.aheadMs) <= AGREEING_MS ? 0 : best.aheadMs, isAbsolute: true };
}

function isAgreeing(a: ComparedClock, b: ComparedClock): boolean {
  return Math.abs(a.aheadMs - b.aheadMs) <= AGREEING_MS + a.uncertaintyMs + b.uncertaintyMs;
}
