/**
 * What one log says and another has said already: a log that was copied into the folder, or named twice, would count
 * all its exposures twice.
 */
import { counted, saidBy, type LogEvent, type Warning } from '../model/index.js';

/** Events of the logs read so far. */
export class ToldEvents {
  private readonly told = new Map<string, LogEvent[]>();

  /** One log's events without those that another log has told: the same instant, train, event and fields. */
  add(events: readonly LogEvent[]): { readonly events: readonly LogEvent[]; readonly warnings: Warning[] } {
    const repeated: { readonly event: LogEvent; readonly first: LogEvent }[] = [];
    const fresh = events.filter((event) => {
      const first = this.told.get(keyOf(event))?.find((other) => isSame(event, other));
      if (first) repeated.push({ event, first });
      return first === undefined;
    });
    // Only now: what a log says twice by itself is its own.
    for (const event of fresh) {
      const key = keyOf(event);
      const alike = this.told.get(key);
      if (alike) alike.push(event);
      else this.told.set(key, [event]);
    }
    return { events: fresh, warnings: warningsOf(repeated, events.length) };
  }
}

function warningsOf(repeated: readonly { event: LogEvent; first: LogEvent }[], all: number): Warning[] {
  const [one] = repeated;
  // A log that serves two trains is read for each of them.
  if (one === undefined || one.event.source.file === one.first.source.file) return [];
  const how = repeated.length === all ? 'all' : String(repeated.length);
  return [
    {
      code: 'repeated-log',
      message:
        `${one.event.source.file} says ${how} of its ${counted(all, 'event')} as ${one.first.source.file} does; ` +
        'they are counted once. If it is a copy, remove it or narrow the pattern that finds the logs',
      source: one.event.source,
      count: repeated.length,
    },
  ];
}

function keyOf({ atMs, event, train }: LogEvent): string {
  return train === undefined ? `${atMs} ${event}` : `${atMs} ${event} ${train}`;
}

function isSame(one: LogEvent, other: LogEvent): boolean {
  return fieldsOf(one) === fieldsOf(other);
}

function fieldsOf(event: LogEvent): string {
  return JSON.stringify(Object.entries(saidBy(event)).sort(([a], [b]) => (a < b ? -1 : 1)));
}
