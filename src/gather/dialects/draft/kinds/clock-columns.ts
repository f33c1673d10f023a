import { groupBy } from '../../../../model/index.js';
import { inUnits } from '../exposures/lengths.js';
import { UNKNOWN } from '../time/other-times.js';
import { nearTime } from '../time/rough-clock.js';
import type { Kind, Slot } from './kind.js';
import { numberIn } from './values.js';
import { withSlots } from './with-slots.js';

/** Minutes and seconds, or hours, minutes and seconds. */
const CLOCK = /^(?:\d{1,2}:)?\d{1,3}:\d{2}(?:[.,]\d+)?$/;
const MIN_CELLS = 5;
/**
 * Maximum distance of a time in a row from the row's own, ms; most lengths would be farther away, since a night is
 * long.
 */
const FAR_MS = 3 * 3_600_000;
const MOSTLY = 0.5;
/** Guiding may go on for most of a night, s; hardly anything else takes so long. */
const LONGEST_S = 16 * 3600;
const LONG_S = 4 * 3600;
const NEARLY_ALL = 0.95;
/** A time of day does not come again so much later, ms; of lengths so many do. */
const LATER_MS = 3_600_000;
const AGAIN = 0.4;

/**
 * Columns of clock values that are lengths, not times of day: `8:00` is eight minutes if, as a time, it would mostly be
 * hours away from its row, or would come again all night.
 */
export function withClockColumns(kinds: readonly Kind[]): readonly Kind[] {
  const cells = kinds.flatMap(({ slots, atMs }) =>
    slots
      .filter(mayBeLength)
      .flatMap(({ path, perLine }) =>
        perLine.flatMap((text = '', i) =>
          text === '' || UNKNOWN.test(text) ? [] : [{ path, text, atMs: atMs[i] ?? NaN }],
        ),
      ),
  );
  const lengths = new Set(
    [...groupBy(cells, ({ path }) => path)].flatMap(([path, own]) => {
      const far = own.filter(({ text, atMs }) => Math.abs(nearTime(text, atMs) - atMs) > FAR_MS).length;
      const seconds = own.map(({ text }) => (CLOCK.test(text) ? numberIn(inUnits(text)) : NaN));
      const areShort =
        seconds.every((length) => length <= LONGEST_S) &&
        seconds.filter((length) => length <= LONG_S).length >= NEARLY_ALL * seconds.length;
      const isFar = far >= MOSTLY * own.length || comingAgain(own) >= AGAIN * own.length;
      return own.length >= MIN_CELLS && areShort && isFar ? [path] : [];
    }),
  );
  if (lengths.size === 0) return kinds;
  return kinds.map((kind) => {
    const slots = kind.slots.map((slot) => (lengths.has(slot.path) && mayBeLength(slot) ? asLength(slot) : slot));
    return withSlots(kind, slots);
  });
}

/** A cell that is a clock value, unlike the rows' own times. */
function mayBeLength({ path, timesMs, values }: Slot): boolean {
  if (path === null || timesMs !== undefined) return false;
  // A length that nobody noted may have a mark.
  const noted = values.filter((value) => !UNKNOWN.test(value));
  return noted.length > 0 && noted.every((value) => CLOCK.test(value));
}

/** Cells with text that recurs in rows far apart, unlike a time of one night. */
function comingAgain(cells: readonly { readonly text: string; readonly atMs: number }[]): number {
  let count = 0;
  for (const same of groupBy(cells, ({ text }) => text).values()) {
    const times = same.map(({ atMs }) => atMs).filter((ms) => !Number.isNaN(ms));
    if (same.length > 2 && Math.max(...times) - Math.min(...times) > LATER_MS) count += same.length;
  }
  return count;
}

/** A slot of clock values as lengths with their units. */
export function asLength(slot: Slot): Slot {
  return {
    ...slot,
    type: 'number',
    values: slot.values.map(inUnits),
    perLine: slot.perLine.map((text) => (text === undefined ? undefined : inUnits(text))),
  };
}
