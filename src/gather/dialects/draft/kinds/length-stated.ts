import { partition } from '../../../../model/index.js';
import { isTook, tookUnit } from '../group-names.js';
import { plainWords } from '../lexicon/plain-words.js';
import { saysSaved } from '../lexicon/said.js';
import type { Slot } from './kind.js';
import { numberIn } from './values.js';

/** A frame is read out and written within this, anything logged long after its end, ms. */
const MOST_LATE_MS = 90_000;
/** Stamps and lengths are rounded to a second: less than this is no delay. */
const ROUNDED_MS = 1100;
const SHORTEST_MS = 10_000;
const MIN_LINES = 3;
const NEARLY_ALL = 0.9;

/**
 * The length that rows state next to the begin, if the span ends before the row is written: `saved m101.fits, begun
 * 22:28:52, 240 s`, written ten seconds after those 240. The end is then begin plus length, not the row's own time.
 * None if rows are written at the end itself.
 *
 * @param sinceMs from the stated begins to the rows' own times, ms, by occurrence
 */
export function lengthStated(slots: readonly Slot[], sinceMs: readonly number[]): Slot | undefined {
  if (sinceMs.length < MIN_LINES) return undefined;
  return slots.find((slot) => {
    const unit = slot.type === 'number' ? (tookUnit(slot) ?? 1) : 0;
    const lengthsMs = slot.perLine.map((value) => numberIn(value) * unit * 1000);
    const late = sinceMs.map((ms, i) => ms - (lengthsMs[i] ?? NaN));
    const isLate = late.filter(
      (ms, i) => (lengthsMs[i] ?? 0) >= SHORTEST_MS && ms >= -ROUNDED_MS && ms <= MOST_LATE_MS,
    );
    const delayed = isLate.filter((ms) => ms > ROUNDED_MS);
    return isLate.length >= NEARLY_ALL * sinceMs.length && delayed.length >= NEARLY_ALL * isLate.length;
  });
}

/**
 * The length that rows state next to their begin and another time, if that is not the end: where a number is named as
 * a length, or where the column says when the file was written.
 */
export function lengthBefore(other: Slot, slots: readonly Slot[], sinceMs: readonly number[]): Slot | undefined {
  const named = lengthStated(slots.filter(isTook), sinceMs);
  if (named !== undefined || other.path === null || !saysSaved(plainWords(other.path))) return named;
  // Measured lengths come before those asked for, which are round.
  const [measured, asked] = partition(slots, ({ values }) => values.some((value) => /[.,]\d/.test(value)));
  return lengthStated([...measured, ...asked], sinceMs);
}
