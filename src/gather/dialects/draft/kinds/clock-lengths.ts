import { nearTime } from '../time/rough-clock.js';
import type { Kind, Slot } from './kind.js';
import { withSlots } from './with-slots.js';

const MIN_LINES = 12;
/** Hours, minutes and seconds. */
const SPELT = /^(\d{1,2}):(\d{2}):(\d{2}(?:[.,]\d+)?)$/;
/** Hardly anything that a log dates by its length takes longer, s. */
const NEARLY_ALL = 0.95;
const LONGEST_S = 4 * 3600;
/** A time that a line states is no farther from it, ms; of lengths so many are, since a night begins in the evening. */
const FAR_MS = 3 * 3_600_000;
const SHARE_FAR = 0.1;

/**
 * Hours, minutes and seconds that are a duration, not a time of day: `done after 0:05:00`. As times of day they would
 * all be in the small hours, hours away from lines of the evening.
 */
export function withClockLengths(kinds: readonly Kind[]): readonly Kind[] {
  const stated = kinds.flatMap(({ slots, atMs }) =>
    slots.filter(isClock).flatMap(({ perLine }) =>
      atMs.map((ms, i) => {
        const text = perLine[i] ?? '';
        return { seconds: secondsIn(text), awayMs: Math.abs(nearTime(text, ms) - ms) };
      }),
    ),
  );
  const short = stated.filter(({ seconds }) => seconds <= LONGEST_S).length;
  if (stated.length < MIN_LINES || short < NEARLY_ALL * stated.length) return kinds;
  if (stated.filter(({ awayMs }) => awayMs > FAR_MS).length < SHARE_FAR * stated.length) return kinds;
  return kinds.map(withLengths);
}

const isClock = ({ type, path }: Slot): boolean => type === 'clock' && path === null;

function withLengths(kind: Kind): Kind {
  const lengths = new Map(kind.slots.flatMap((slot) => (isClock(slot) ? [[slot, inUnits(slot)] as const] : [])));
  if (lengths.size === 0) return kind;
  const slots = kind.slots.map((slot) => lengths.get(slot) ?? slot);
  return withSlots(kind, slots);
}

function secondsIn(text: string | undefined): number {
  const [, hours, minutes, seconds] = SPELT.exec(text ?? '') ?? [];
  return Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds?.replace(',', '.'));
}

/** The slot as lengths with units, the form that drafts read elsewhere. */
function inUnits(slot: Slot): Slot {
  const spelt = (text: string): string => text.replace(SPELT, '$1h$2m$3s');
  return {
    ...slot,
    type: 'number',
    values: slot.values.map(spelt),
    perLine: slot.perLine.map((text) => (text === undefined ? undefined : spelt(text))),
  };
}
