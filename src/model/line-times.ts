import { groupBy, sortedBy } from './collections.js';
import type { LogEvent, TellingEvent } from './event.js';

/**
 * When the lines of one log that belong to one train, or to none, were written. A note has no other information, and
 * long logs are mostly notes: their instants are kept, the notes are not.
 */
export interface LineTimes {
  readonly file: string;
  readonly train: string | undefined;
  /** In line order, on the clock that wrote them; UTC ms. */
  readonly atMs: readonly number[];
}

/** The instants of events, notes among them; in any order. */
export function lineTimesOf(events: readonly LogEvent[]): LineTimes[] {
  return [...groupBy(events, (e) => e.source.file)].flatMap(([file, ofFile]) =>
    [...groupBy(ofFile, (e) => e.train)].map(([train, own]) => ({
      file,
      train,
      atMs: sortedBy(own, (e) => e.source.line ?? 0).map((e) => e.atMs),
    })),
  );
}

/** Whether an event carries more than the time of its line. */
export function isTelling(event: LogEvent): event is TellingEvent {
  return event.event !== 'note';
}
