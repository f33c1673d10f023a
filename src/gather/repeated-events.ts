/**
 * Events in one log that another has already reported: a log that was copied into the folder, or named twice, would
 * count all its exposures twice.
 */
import { append, counted, groupBy, saidBy, type LogEvent, type Warning } from '../model/index.js';

/** Events of the logs read so far. */
export class SeenEvents {
  private readonly seen = new Map<string | undefined, SeenOfTrain>();

  /** One log's events without those already in another log: the same instant, train, event and fields. */
  add<E extends LogEvent>(events: readonly E[]): { readonly events: readonly E[]; readonly warnings: Warning[] } {
    const repeated: { readonly event: LogEvent; readonly first: LogEvent }[] = [];
    const fresh = events.filter((event) => {
      const first = this.seen.get(event.train)?.find(event);
      if (first) repeated.push({ event, first });
      return first === undefined;
    });
    // Only now: repetitions within one log are its own.
    for (const [train, own] of groupBy(fresh, (event) => event.train)) {
      const ofTrain = this.seen.get(train) ?? new SeenOfTrain();
      this.seen.set(train, ofTrain);
      ofTrain.add(own);
    }
    return { events: fresh, warnings: warningsOf(repeated, events.length) };
  }
}

/**
 * The events of one train, or of none. Its index is built on demand: usually each train has its own log, or one per
 * night, and it is never needed.
 */
class SeenOfTrain {
  private readonly index = new Map<string, LogEvent[]>();
  private waiting: LogEvent[] = [];
  private firstMs = Infinity;
  private lastMs = -Infinity;

  add(events: readonly LogEvent[]): void {
    append(this.waiting, events);
    for (const { atMs } of events) {
      this.firstMs = Math.min(this.firstMs, atMs);
      this.lastMs = Math.max(this.lastMs, atMs);
    }
  }

  /** An identical event. */
  find(event: LogEvent): LogEvent | undefined {
    if (event.atMs < this.firstMs || event.atMs > this.lastMs) return undefined;
    this.indexAll();
    return this.index.get(keyOf(event))?.find((other) => isSame(event, other));
  }

  private indexAll(): void {
    for (const event of this.waiting) {
      const key = keyOf(event);
      const alike = this.index.get(key);
      if (alike) alike.push(event);
      else this.index.set(key, [event]);
    }
    if (this.waiting.length > 0) this.waiting = [];
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
        `${one.event.source.file} repeats ${how} of its ${counted(all, 'event')} from ${one.first.source.file}; ` +
        'they are counted once. If it is a copy, remove it or narrow the pattern that finds the logs',
      source: one.event.source,
      count: repeated.length,
    },
  ];
}

function keyOf({ atMs, event }: LogEvent): string {
  return `${atMs} ${event}`;
}

function isSame(one: LogEvent, other: LogEvent): boolean {
  return fieldsOf(one) === fieldsOf(other);
}

function fieldsOf(event: LogEvent): string {
  return JSON.stringify(Object.entries(saidBy(event)).sort(([a], [b]) => (a < b ? -1 : 1)));
}
