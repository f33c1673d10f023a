import { increment } from '../../../../model/index.js';
import { isOfSeconds, lengthMs } from '../lengths.js';
import type { Kind } from './kind.js';
import { numberIn } from './values.js';

/** Minimum number and fraction of row kinds that state their durations alike. */
const MIN_KINDS = 3;
const NEARLY_ALL = 0.8;
/** Minimum number and fraction of row kinds with a length in one column, where others take no time: readings, waits. */
const SOME_KINDS = 5;
const HALF = 0.5;
/** Minimum number of kinds that are shorter than most exposures, ms. */
const MIN_SHORT_KINDS = 3;
const SHORT_MS = 60_000;

/** The number of seconds that rows of most kinds state next to the begin of a span. */
export function lengthPath(kinds: readonly Kind[]): string | undefined {
  const counts = new Map<string, number>();
  for (const { slots } of kinds)
    for (const slot of slots) if (slot.path !== null && isOfSeconds(slot)) increment(counts, slot.path);
  const least = Math.max(MIN_KINDS, NEARLY_ALL * kinds.length);
  const some = Math.max(SOME_KINDS, HALF * kinds.length);
  const [most, ...others] = [...counts]
    .filter(([path, count]) => count >= least || (count >= some && isOfAnything(kinds, path)))
    .sort((a, b) => b[1] - a[1]);
  // Next to the requested length is the actual one: shorter where an exposure was aborted.
  const actual = others.find(
    ([path]) => most !== undefined && isCut(kinds, path, most[0]) && !isCut(kinds, most[0], path),
  );
  return (actual ?? most)?.[0];
}

/** Whether a column holds the lengths of things as different as a move and an exposure, not of exposures alone. */
function isOfAnything(kinds: readonly Kind[], path: string): boolean {
  const medians = kinds.flatMap(({ slots }) => {
    const slot = slots.find((one) => one.path === path && isOfSeconds(one));
    const known = (slot?.perLine ?? []).map((_, i) => (slot === undefined ? NaN : lengthMs(slot, i)));
    return known.filter((ms) => !Number.isNaN(ms)).sort((a, b) => a - b)[known.length >> 1] ?? [];
  });
  const short = medians.filter((ms) => ms < SHORT_MS).length;
  return short >= MIN_SHORT_KINDS && medians.some((ms) => ms >= SHORT_MS);
}

/** An aborted exposure reached less than this fraction of the requested length. */
const CUT = 0.95;

/** Whether one field is clearly less than another on some row. */
function isCut(kinds: readonly Kind[], path: string, askedPath: string): boolean {
  return kinds.some(({ slots }) => {
    const own = slots.find((slot) => slot.path === path);
    const asked = slots.find((slot) => slot.path === askedPath);
    return own?.perLine.some((value, i) => numberIn(value) < CUT * numberIn(asked?.perLine[i])) === true;
  });
}
