import type { EventName, FieldName, FieldOf, FieldValue } from '../vocabulary/index.js';
import type { Source } from './source.js';

/** Facts of any event, each absent unless the log states it. Units and bounds are in the vocabulary. */
export type EventFields = { readonly [F in FieldName]?: FieldValue<F> };

/** Common fields of every event. */
interface Happening<E extends EventName> {
  /** UTC milliseconds since the epoch, on the writing computer's clock. */
  readonly atMs: number;
  readonly event: E;
  /** The train whose log reports it; absent for logs of no train (of a guide computer, for example). */
  readonly train?: string;
  readonly source: Source;
  /** The dialect rule that made it; absent for events of our own event log. */
  readonly rule?: Source;
}

/** An event of that name, with its fields. */
export type EventOf<E extends EventName> = E extends EventName ? Happening<E> & Pick<EventFields, FieldOf<E>> : never;

/** One event, at one instant. Its name determines its fields. */
export type LogEvent = EventOf<EventName>;

/** Any event but a note. */
export type TellingEvent = EventOf<Exclude<EventName, 'note'>>;

/** An event without fields; `setField` adds those that its name allows. */
export function bareEvent(
  event: EventName,
  atMs: number,
  train: string | undefined,
  source: Source,
  rule?: Source,
): LogEvent {
  const made: { -readonly [K in keyof Happening<EventName>]: Happening<EventName>[K] } =
    train === undefined ? { atMs, event, source } : { atMs, event, train, source };
  if (rule !== undefined) made.rule = rule;
  // Every field of every event is optional: without fields, any name is complete.
  return made as LogEvent;
}

/** An event's content without its source. */
export function saidBy({ source: _source, rule: _rule, ...said }: LogEvent): Omit<LogEvent, 'source' | 'rule'> {
  return said;
}

/** Whether an event has one of these names. */
export function isEventOf<E extends EventName>(event: LogEvent, names: readonly E[]): event is EventOf<E> {
  return (names as readonly EventName[]).includes(event.event);
}
