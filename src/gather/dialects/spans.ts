import type { EventName, LogEvent } from '../../model/index.js';

/** Events that begin something, and the event that ends it. */
const ENDS = {
  'exposure-begin': 'exposure-end',
  'dither-begin': 'dither-end',
  'settle-begin': 'settle-end',
  'focus-begin': 'focus-end',
  'filter-begin': 'filter-end',
  'slew-begin': 'slew-end',
  'centre-begin': 'centre-end',
  'flip-begin': 'flip-end',
  'guiding-begin': 'guiding-end',
  'guiding-pause': 'guiding-resume',
  'star-lost': 'star-found',
  'hold-begin': 'hold-end',
} as const satisfies Partial<Record<EventName, EventName>>;

/** An event that begins something. */
export type BeginEvent = keyof typeof ENDS;
/** An event that ends something. */
export type EndEvent = (typeof ENDS)[BeginEvent];

const BEGIN_EVENTS = Object.keys(ENDS) as readonly BeginEvent[];
/** Every event that ends something, `exposure-abort` aside. */
export const END_EVENTS: readonly EndEvent[] = Object.values(ENDS);

const BEGINS: ReadonlyMap<EventName, BeginEvent> = new Map<EventName, BeginEvent>([
  ...BEGIN_EVENTS.map((begin): [EventName, BeginEvent] => [ENDS[begin], begin]),
  ['exposure-abort', 'exposure-begin'],
]);

/** The event that ends what this one begins, or `undefined`. */
export function endOf(event: EventName): EndEvent | undefined {
  return isBegin(event) ? ENDS[event] : undefined;
}

/** The event that begins what this one ends, or `undefined`. */
export function beginOf(event: EventName): BeginEvent | undefined {
  return BEGINS.get(event);
}

function isBegin(event: EventName): event is BeginEvent {
  return Object.hasOwn(ENDS, event);
}

/** What has begun and not ended, per train. */
export class OpenSpans {
  private readonly open = new Map<string, LogEvent>();

  /** Takes note of an event. */
  note(event: LogEvent): void {
    if (isBegin(event.event)) this.open.set(keyOf(event.event, event.train), event);
    const begin = beginOf(event.event);
    if (begin !== undefined) this.open.delete(keyOf(begin, event.train));
  }

  /** The beginning that the event would end, if it is open. */
  beginningFor(event: EventName, train: string | undefined): LogEvent | undefined {
    const begin = beginOf(event);
    return begin === undefined ? undefined : this.open.get(keyOf(begin, train));
  }
}

function keyOf(begin: BeginEvent, train: string | undefined): string {
  return `${begin} ${train ?? ''}`;
}
