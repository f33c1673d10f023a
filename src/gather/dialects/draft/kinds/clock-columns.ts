import { groupBy } from '../../../../model/index.js';
import { inUnits } from '../exposures/lengths.js';
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
const LONGEST_S = 4 * 3600;

/**
 * Columns of clock values that are lengths, not times of day: `8:00` is eight minutes if, as a time, it would mostly be
 * hours away from its row.
 */
export function withClockColumns(kinds: readonly Kind[]): readonly Kind[] {
  const cells = kinds.flatMap(({ slots, atMs }) =>
    slots
      .filter(isClock)
      .flatMap(({ path, perLine }) =>
        perLine.flatMap((text, i) => (text === undefined || text === '' ? [] : [{ path, text, atMs: atMs[i] ?? NaN }])),
      ),
  );
  const lengths = new Set(
    [...groupBy(cells, ({ path }) => path)].flatMap(([path, own]) => {
      const far = own.filter(({ text, atMs }) => Math.abs(nearTime(text, atMs) - atMs) > FAR_MS).length;
      const areShort = own.every(({ text }) => CLOCK.test(text) && numberIn(inUnits(text)) <= LONGEST_S);
      return own.length >= MIN_CELLS && areShort && far >= MOSTLY * own.length ? [path] : [];
    }),
  );
  if (lengths.size === 0) return kinds;
  return kinds.map((kind) => {
    const slots = kind.slots.map((slot) => (isClock(slot) && lengths.has(slot.path) ? asLength(slot) : slot));
    return withSlots(kind, slots);
  });
}

/** A cell that is a clock value, unlike the rows' own times. */
const isClock = ({ type, path, timesMs }: Slot): boolean => type === 'clock' && path !== null && timesMs === undefined;

/** A slot of clock values as lengths with their units. */
export function asLength(slot: Slot): Slot {
  return {
    ...slot,
    type: 'number',
    values: slot.values.map(inUnits),
    perLine: slot.perLine.map((text) => (text === undefined ? undefined : inUnits(text))),
  };
}
