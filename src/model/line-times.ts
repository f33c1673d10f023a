import { groupBy, sortedBy } from './collections.js';
import type { LogEvent, TellingEvent } from './event.js';

/**
 * When the lines of one log were written that are of one train, or of none. A note tells a night nothing else, and long
 * logs are mostly notes: their instants are kept, and they are not.
 */
export interface LineTimes {
  readonly file: string;
  readonly train: string | undefined;
  /** In the order of the lines, by the clock that wrote them; UTC ms. */
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

/** Whether an event tells more than when its line was written. */
export function isTelling(event: LogEvent): event is TellingEvent {
  return event.event !== 'note';
}
