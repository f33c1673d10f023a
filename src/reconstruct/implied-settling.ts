/** Settling whose begin no line reports, because it is implied by the end of the move, or the start of guiding. */
import type { EventName, LogEvent } from '../model/index.js';

/** What settling directly follows. */
const BEFORE: ReadonlySet<EventName> = new Set(['dither-end', 'guiding-begin']);
/** What may come between without beginning or ending a mount activity. */
const ASIDE: ReadonlySet<EventName> = new Set(['note', 'cooler', 'frame-saved', 'dither-ready', 'exposure-end']);

/**
 * One log's events with a `settling-begin` before each `settling-end` that lacks one, at the line that settling
 * follows; the event has that line as its source.
 *
 * @param events sorted by time
 */
export function withImpliedSettling(events: readonly LogEvent[]): readonly LogEvent[] {
  if (!events.some(({ event }) => event === 'settling-end')) return events;
  const all: LogEvent[] = [];
  let before: LogEvent | undefined;
  let isOpen = false;
  for (const event of events) {
    if (event.event === 'settling-end' && !isOpen && before) {
      const { atMs, train, source } = before;
      all.push({ event: 'settling-begin', atMs, train, source });
    }
    all.push(event);
    if (event.event === 'settling-begin') isOpen = true;
    else if (event.event === 'settling-end') isOpen = false;
    if (BEFORE.has(event.event)) before = event;
    else if (!ASIDE.has(event.event)) before = undefined;
  }
  return all;
}
