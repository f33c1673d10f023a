/**
 * Begin and end events paired into spans, with what an incomplete log leaves open told rather than guessed silently.
 */
import { interval, type EventName, type Interval, type LogEvent, type Warning } from '../model/index.js';

/** A begin with its end. */
export interface EventSpan {
  readonly span: Interval;
  readonly begin: LogEvent;
  /** Absent when the log does not say when it ended. */
  readonly end?: LogEvent;
}

export interface PairingRule {
  readonly begin: EventName;
  readonly end: readonly EventName[];
  /** Events that show that it must be over, where the end itself is missing. */
  readonly overBy: readonly EventName[];
}

/**
 * Pairs one log's events.
 *
 * @param events one log's, sorted by time
 * @param untilMs where a span ends that nothing closes
 */
export function pairSpans(
  events: readonly LogEvent[],
  rule: PairingRule,
  untilMs: number,
): { spans: EventSpan[]; warnings: Warning[] } {
  const spans: EventSpan[] = [];
  const warnings: Warning[] = [];
  let open: LogEvent | undefined;

  const giveUp = (begin: LogEvent, atMs: number, how: string): void => {
    spans.push({ span: interval(begin.atMs, Math.max(begin.atMs, atMs)), begin });
    warnings.push({
      code: 'unclosed-activity',
      message: `${begin.event} has no ${rule.end[0]}; taken to have ended ${how}`,
      source: begin.source,
    });
  };

  for (const event of events) {
    if (event.event === rule.begin) {
      if (open) giveUp(open, event.atMs, `when the next one began (line ${event.source.line ?? '?'})`);
      open = event;
    } else if (rule.end.includes(event.event)) {
      if (open) {
        spans.push({ span: interval(open.atMs, event.atMs), begin: open, end: event });
        open = undefined;
      } else {
        warnings.push({
          code: 'unpaired-event',
          message: `${event.event} stands without a ${rule.begin} before it and was ignored; the log may have been cut here`,
          source: event.source,
        });
      }
    } else if (open && rule.overBy.includes(event.event)) {
      giveUp(open, event.atMs, `by the ${event.event} that followed`);
      open = undefined;
    }
  }
  if (open) giveUp(open, untilMs, 'where the log ends');
  return { spans, warnings };
}
