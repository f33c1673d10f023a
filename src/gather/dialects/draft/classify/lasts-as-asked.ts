import { tookUnit } from '../group-names.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';
import type { Stated } from './durations.js';

/** Minimum number and fraction of rows that last as long as a number in them states. */
const MIN_ASKED = 4;
const ASKED = 0.7;

/** Exposure lengths that imagers use (common practice, no source). */
const ROUND = 5;
const isAsked = (seconds: number): boolean => Number.isInteger(2 * seconds) && seconds >= 5;

/** Whether the two times of a row differ by a round number that the row states: a shutter was open. */
export function lastsAsAsked({ slots, count }: Kind, tookMs: readonly number[], took: Slot | undefined): boolean {
  if (count < MIN_ASKED) return false;
  return slots.some((slot) => {
    const { type, values, perLine } = slot;
    if (slot === took || type !== 'number' || !values.every((value) => isAsked(numberIn(value)))) return false;
    // A column of whole seconds may state how long each row lasted: nobody requests 9, 14 and 22 s.
    if (perLine.filter((value) => numberIn(value) % ROUND === 0).length < ASKED * perLine.length) return false;
    const kept = tookMs.filter((ms, i) => {
      const more = ms / 1000 - numberIn(perLine[i]);
      return more > -1.1 && more < 2.1;
    });
    return kept.length >= ASKED * tookMs.length;
  });
}

/** Fewer may be tests; shorter spans belong to a wheel or a moving mount, s. */
const MIN_LONG = 8;
const LONG = 25;

/**
 * Whether lines name a filter and how many seconds, a long round number, have passed: only an exposure lasts that long.
 */
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
