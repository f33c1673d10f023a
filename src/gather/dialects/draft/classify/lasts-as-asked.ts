import { tookUnit } from '../group-names.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';
import type { Stated } from './durations.js';

/** Rows, and the share of them, that last as long as a number in them says. */
const MIN_ASKED = 4;
const ASKED = 0.7;

/** What imagers ask for (common practice, no source). */
const ROUND = 5;
const isAsked = (seconds: number): boolean => Number.isInteger(2 * seconds) && seconds >= 5;

/** Whether the row's two times are as far apart as a round number of it asks for: a shutter was open. */
export function lastsAsAsked({ slots, count }: Kind, tookMs: readonly number[], took: Slot | undefined): boolean {
  if (count < MIN_ASKED) return false;
  return slots.some((slot) => {
    const { type, values, perLine } = slot;
    if (slot === took || type !== 'number' || !values.every((value) => isAsked(numberIn(value)))) return false;
    // A column of whole seconds may state how long each row has lasted: nobody asks for 9, 14 and 22 s.
    if (perLine.filter((value) => numberIn(value) % ROUND === 0).length < ASKED * perLine.length) return false;
    const kept = tookMs.filter((ms, i) => {
      const more = ms / 1000 - numberIn(perLine[i]);
      return more > -1.1 && more < 2.1;
    });
    return kept.length >= ASKED * tookMs.length;
  });
}

/** Fewer may be tests of something, and what is shorter is done by a wheel or by a mount that moves, s. */
const MIN_LONG = 8;
const LONG = 25;

/** Whether lines name a filter, and how many seconds, long and round, have passed: only an exposure lasts so. */
export function lastsThroughFilter({ slots, count }: Kind, duration: Stated | undefined): boolean {
  const has = (wanted: Slot['type']): boolean => slots.some(({ type }) => type === wanted);
  if (duration !== 'past' || count < MIN_LONG || !has('filter') || has('file')) return false;
  return slots.some((slot) => {
    const unit = slot.type === 'number' ? tookUnit(slot) : null;
    return (
      unit !== null && slot.values.every((value) => isAsked(numberIn(value) * unit) && numberIn(value) * unit >= LONG)
    );
  });
}
