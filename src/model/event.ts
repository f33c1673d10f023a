import type { EventName, FieldName, FieldOf, FieldValue } from '../vocabulary/index.js';
import type { Source } from './source.js';

/** Facts of any event, each absent unless the log states it. Units and bounds stand in the vocabulary. */
export type EventFields = { readonly [F in FieldName]?: FieldValue<F> };

/** What every event has. */
interface Happening<E extends EventName> {
  /** UTC milliseconds since the epoch, as the writing computer's clock had it. */
  readonly atMs: number;
  readonly event: E;
  /** The train whose log said so; absent for logs of no train (a guide computer, say). */
  readonly train?: string;
  readonly source: Source;
  /** The rule of a dialect that made it of its line; absent for events of our own event log. */
  readonly rule?: Source;
}

/** An event of that name, with the fields that such an event has. */
export type EventOf<E extends EventName> = E extends EventName ? Happening<E> & Pick<EventFields, FieldOf<E>> : never;

/** One thing that happened, at one instant. Its name says which fields it has. */
export type LogEvent = EventOf<EventName>;

/** Any event but a note. */
export type TellingEvent = EventOf<Exclude<EventName, 'note'>>;

/** An event without fields; `setField` gives it those that its name allows. */
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
  // Every field of every event may be absent: without fields, any name is whole.
  return made as LogEvent;
}

/** What an event says, without where it was read. */
export function saidBy({ source: _source, rule: _rule, ...said }: LogEvent): Omit<LogEvent, 'source' | 'rule'> {
  return said;
}

/** Whether an event is one of those named. */
export function isEventOf<E extends EventName>(event: LogEvent, names: readonly E[]): event is EventOf<E> {
  return (names as readonly EventName[]).includes(event.event);
}
