import { beginOf, endOf, EVENT_NAMES, type EventName } from '../../../../model/index.js';
import { stateIndex } from './grammar.js';

/**
 * The classification of the kinds of line, by index, with events as numbers, since a night is scored for hundreds of
 * thousands of classifications.
 */
export type Labels = Uint8Array;

/** The number of an unclassified kind. */
export const UNTAKEN = 0;

const NUMBERS: ReadonlyMap<EventName, number> = new Map(EVENT_NAMES.map((event, i) => [event, i + 1]));

/** The number of an event; `UNTAKEN` for none. */
export function labelOf(event: EventName | null | undefined): number {
  return event === null || event === undefined ? UNTAKEN : (NUMBERS.get(event) ?? UNTAKEN);
}

/** The event with this number, `null` for none. */
export function eventOf(label: number): EventName | null {
  return EVENT_NAMES[label - 1] ?? null;
}

/** Numbers by label, and the placeholder for no label. */
function byLabel(value: (event: EventName) => number | undefined, none: number): Int8Array {
  return Int8Array.from([none, ...EVENT_NAMES.map((event) => value(event) ?? none)]);
}

const stateOf = (event: EventName | undefined): number | undefined =>
  event === undefined ? undefined : stateIndex(event);

/** The state of a train's night for a label, −1 for none. */
export const STATE_OF = byLabel(stateOf, -1);
/** The state that begins the span that a label ends, −1 for none. */
export const BEGIN_STATE_OF = byLabel((event) => stateOf(beginOf(event)), -1);
/** The label that ends the span that a label begins, `UNTAKEN` for none. */
export const END_OF = byLabel((event) => labelOf(endOf(event)), UNTAKEN);
