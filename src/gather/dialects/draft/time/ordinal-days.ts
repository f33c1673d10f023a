import type { StampGuess } from './guess.js';
import { timesOf } from './times-of.js';

/** A day of the year after a two-digit year, `26051`: it may also be a process number. */
export const ORDINAL = /\{year2\}\W?\{day-of-year\}/;

const DAY_MS = 86_400_000;
const NOON_MS = DAY_MS / 2;

/**
 * A stamp with such a day, if the log crosses midnight and it increases there; otherwise with a plain number in its
 * place.
 */
export function provedOrdinal(stamp: StampGuess, texts: readonly { readonly text: string }[]): StampGuess {
  if (!ORDINAL.test(stamp.pattern)) return stamp;
  const times = timesOf(stamp, texts);
  const dayOf = (ms: number): number => Math.floor(ms / DAY_MS);
  const pairs = times.slice(1).map((ms, i) => [times[i] ?? NaN, ms] as const);
  const midnights = pairs.filter(([from, to]) => (to % DAY_MS) - (from % DAY_MS) < -NOON_MS);
  const isNext = midnights.length > 0 && midnights.every(([from, to]) => dayOf(to) === dayOf(from) + 1);
  return isNext ? stamp : { ...stamp, pattern: stamp.pattern.replace(ORDINAL, '{number}') };
}
