import { beginOf, endOf, EVENT_NAMES, type EventName } from '../../../../model/index.js';
import { stateIndex } from './grammar.js';

/**
 * What kinds of line are taken for, by their index: events by number, since a night is weighed for hundreds of
 * thousands of ways to take its lines.
 */
export type Labels = Uint8Array;

/** The number of what is taken for nothing. */
export const UNTAKEN = 0;

const NUMBERS: ReadonlyMap<EventName, number> = new Map(EVENT_NAMES.map((event, i) => [event, i + 1]));

/** The number of an event; `UNTAKEN` for none. */
export function labelOf(event: EventName | null | undefined): number {
  return event === null || event === undefined ? UNTAKEN : (NUMBERS.get(event) ?? UNTAKEN);
}

/** The event of a number, `null` for none. */
export function eventOf(label: number): EventName | null {
  return EVENT_NAMES[label - 1] ?? null;
}

/** Numbers by label, and what stands for no label. */
function byLabel(value: (event: EventName) => number | undefined, none: number): Int8Array {
  return Int8Array.from([none, ...EVENT_NAMES.map((event) => value(event) ?? none)]);
}

const stateOf = (event: EventName | undefined): number | undefined =>
  event === undefined ? undefined : stateIndex(event);

/** The state in a train's night that a label is, −1 for none. */
export const STATE_OF = byLabel(stateOf, -1);
/** The state that begins what a label ends, −1 for none. */
export const BEGIN_STATE_OF = byLabel((event) => stateOf(beginOf(event)), -1);
/** The label that ends what a label begins, `UNTAKEN` for none. */
export const END_OF = byLabel((event) => labelOf(endOf(event)), UNTAKEN);
