/** Begin and end events paired into spans. Anything an incomplete log leaves open is reported, not silently guessed. */
import {
  interval,
  isEventOf,
  type EventName,
  type EventOf,
  type Interval,
  type LogEvent,
  type Warning,
} from '../model/index.js';

/** Times derived from a length rounded to the second are off by as much, ms. */
const ROUNDING_MS = 1000;

/** A begin with its end. */
export interface EventSpan<B extends EventName, E extends EventName> {
  readonly span: Interval;
  readonly begin: EventOf<B>;
  /** Absent when the log does not say when it ended, or says so through the next event. */
  readonly end?: EventOf<E>;
  /** The next event, if it implies the end as well as the end event would. */
  readonly next?: LogEvent;
}

export interface PairingRule<B extends EventName, E extends EventName> {
  readonly begin: B;
  readonly end: E;
  /** What begins at its end without a pause, so that the log need not state both. */
  readonly before?: EventName;
  /** Events that show that it must be over, if the end itself is missing. */
  readonly overBy: readonly EventName[];
}

/**
 * Pairs one log's events.
 *
 * @param events one log's, sorted by time
 * @param untilMs end of a span that nothing closes
 * @param overMs sorted times that show that it must be over, at which a span without an end is cut off
 * @param overBy what these times are
 */
export function pairSpans<B extends EventName, E extends EventName>(
  events: readonly LogEvent[],
  rule: PairingRule<B, E>,
  untilMs: number,
  overMs: readonly number[] = [],
  overBy = 'exposure',
): { spans: EventSpan<B, E>[]; warnings: Warning[] } {
  const spans: EventSpan<B, E>[] = [];
  const warnings: Warning[] = [];
  let open: EventOf<B> | undefined;
  const begins = [rule.begin];
  const ends = [rule.end];

  const giveUp = (begin: EventOf<B>, atMs: number, how: string): void => {
    const cutMs = overMs.find((ms) => ms > begin.atMs);
    const isCut = cutMs !== undefined && cutMs < atMs;
    spans.push({ span: interval(begin.atMs, Math.max(begin.atMs, isCut ? cutMs : atMs)), begin });
    warnings.push({
      code: 'unclosed-activity',
      message:
        `${begin.event} has no ${rule.end}; taken to have ended ` +
        (isCut ? `by the next ${overBy} of the train that steers` : how),
      source: begin.source,
    });
  };

  for (const event of events) {
    if (isEventOf(event, begins)) {
      if (open) giveUp(open, event.atMs, `when the next one began (line ${event.source.line ?? '?'})`);
      open = event;
    } else if (isEventOf(event, ends)) {
      if (open) {
        spans.push({ span: interval(open.atMs, event.atMs), begin: open, end: event });
        open = undefined;
      } else if (isOfRounding(spans.at(-1), event)) {
        spans[spans.length - 1] = { ...spans[spans.length - 1]!, end: event };
      } else {
        warnings.push({
          code: 'unpaired-event',
          message: `${rule.end} has no ${rule.begin} before it and was ignored; the log may be cut`,
          source: event.source,
        });
      }
    } else if (open && event.event === rule.before) {
      spans.push({ span: interval(open.atMs, event.atMs), begin: open, next: event });
      open = undefined;
    } else if (open && rule.overBy.includes(event.event)) {
      giveUp(open, event.atMs, `by the ${event.event} that followed`);
      open = undefined;
    }
  }
  if (open) giveUp(open, untilMs, 'where the log ends');
  return { spans, warnings };
}

/** Whether an end belongs to a span that the next event has already ended, within the rounding of lengths. */
function isOfRounding(last: EventSpan<EventName, EventName> | undefined, end: LogEvent): boolean {
  return last?.next !== undefined && !last.end && end.atMs - last.span.endMs <= ROUNDING_MS;
}
