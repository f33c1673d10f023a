import {
  append,
  beginOf,
  beginOfSpan,
  endOf,
  spanBegunBy,
  type BeginEvent,
  type EventName,
  type LogEvent,
  type Source,
} from '../../../model/index.js';

/** A span with a beginning and an end, as stated by the events. */
export interface StatedSpan {
  readonly begin: BeginEvent;
  readonly train?: string;
  readonly startMs: number;
  /** `null` when it never ends. */
  readonly endMs: number | null;
}

/** Two events that contradict each other. */
export interface Contradiction {
  readonly kind: 'end-without-begin' | 'begin-twice' | 'never-ends' | 'exposures-overlap' | 'time-steps-back';
  /** The event that contradicts another. */
  readonly event: EventName;
  readonly message: string;
  readonly source: Source;
}

/** Log lines may be written slightly out of chronological order. */
const DISORDER_MS = 60_000;
/** A backward step of this size crosses midnight while the date stays that of the evening. */
const NEARLY_A_DAY_MS = 20 * 3_600_000;
const DAY_MS = 86_400_000;
const OVER_MIDNIGHT =
  ': nearly a day, as where the date remains that of the evening after midnight; ' +
  'then write {skip} for it in "time.pattern", and say in "time.date" where the date of the evening is found';

/** What a beginning ends implicitly, as the end event itself would: a log need not state both. */
const ENDED_BY: Readonly<Partial<Record<EventName, readonly BeginEvent[]>>> = {
  'settling-begin': ['dither-begin'],
  'guiding-begin': ['guiding-rest-begin', 'star-gap-begin'],
};

/**
 * Pairs beginnings with ends and reports mismatches: ends without a beginning, beginnings without an end, overlapping
 * exposures of one train, and times that step back.
 */
export function pairEvents(events: readonly LogEvent[]): {
  readonly spans: readonly StatedSpan[];
  readonly contradictions: readonly Contradiction[];
} {
  const spans: StatedSpan[] = [];
  const contradictions: Contradiction[] = [];
  const open = new Map<string, LogEvent>();
  /** Ended implicitly by another event; its own end may still follow. */
  const over = new Set<string>();
  const tell = (kind: Contradiction['kind'], event: LogEvent, message: string): void => {
    contradictions.push({ kind, event: event.event, message, source: event.source });
  };
  const close = (begin: LogEvent, name: BeginEvent, endMs: number | null): void => {
    spans.push({
      begin: name,
      ...(begin.train === undefined ? {} : { train: begin.train }),
      startMs: begin.atMs,
      endMs,
    });
  };
  for (const event of [...events].sort((a, b) => a.atMs - b.atMs)) {
    const begins = beginName(event.event);
    const name = begins ?? beginOf(event.event);
    if (name === undefined) continue;
    const key = begins === undefined ? keyOfEnded(name, event, open) : keyOf(name, event);
    const begun = open.get(key);
    for (const ended of ENDED_BY[event.event] ?? []) {
      const last = open.get(keyOf(ended, event));
      if (last === undefined) continue;
      open.delete(keyOf(ended, event));
      over.add(keyOf(ended, event));
      close(last, ended, event.atMs);
    }
    if (begins !== undefined) {
      if (begun !== undefined) {
        const overlap = name === 'exposure-begin';
        tell(
          overlap ? 'exposures-overlap' : 'begin-twice',
          event,
          `${event.event} while the one of line ${begun.source.line ?? 0} has not ended`,
        );
        close(begun, name, null);
      }
      open.set(key, event);
      over.delete(key);
    } else if (begun === undefined) {
      if (over.delete(key)) continue;
      tell('end-without-begin', event, `${event.event} without ${name}`);
    } else {
      open.delete(key);
      close(begun, name, event.atMs);
    }
  }
  for (const begun of open.values()) {
    const name = beginName(begun.event);
    if (name === undefined) continue;
    close(begun, name, null);
    // Guiding and holds may well last to the end of the log.
    if (name !== 'guiding-begin' && name !== 'hold-begin')
      tell('never-ends', begun, `${begun.event} without ${endOf(begun.event) ?? 'end'} after it`);
  }
  append(contradictions, stepsBack(events));
  return {
    spans: spans.sort((a, b) => a.startMs - b.startMs),
    contradictions: contradictions.sort((a, b) => (a.source.line ?? 0) - (b.source.line ?? 0)),
  };
}

const keyOf = (begin: BeginEvent, { train }: LogEvent): string => `${begin} ${train ?? ''}`;

/** An end that names no train ends the only one in progress; one that names a train also what began without one. */
function keyOfEnded(begin: BeginEvent, end: LogEvent, open: ReadonlyMap<string, LogEvent>): string {
  const own = keyOf(begin, end);
  if (open.has(own)) return own;
  const [first, ...further] = [...open.keys()].filter((key) => key.startsWith(`${begin} `));
  if (first === undefined || further.length > 0) return own;
  return end.train === undefined || first === `${begin} ` ? first : own;
}

function beginName(event: EventName): BeginEvent | undefined {
  const span = spanBegunBy(event);
  return span === undefined ? undefined : beginOfSpan(span);
}

/**
 * Lines all of whose events precede all events of the previous line: derived events may lie on either side of a line's
 * own time.
 */
function stepsBack(events: readonly LogEvent[]): Contradiction[] {
  const found: Contradiction[] = [];
  let before: { line: number; earliestMs: number } | undefined;
  for (let i = 0; i < events.length; ) {
    const first = events[i];
    if (first === undefined) break;
    let earliestMs = Infinity;
    let latestMs = -Infinity;
    for (; i < events.length && events[i]?.source.line === first.source.line; i++) {
      const atMs = events[i]?.atMs ?? NaN;
      earliestMs = Math.min(earliestMs, atMs);
      latestMs = Math.max(latestMs, atMs);
    }
    const backMs = (before?.earliestMs ?? NaN) - latestMs;
    if (before !== undefined && backMs > DISORDER_MS) {
      found.push({
        kind: 'time-steps-back',
        event: first.event,
        message: `${Math.round(backMs / 1000)} s before line ${before.line}${hint(backMs)}`,
        source: first.source,
      });
    }
    before = { line: first.source.line ?? 0, earliestMs };
  }
  return found;
}

function hint(backMs: number): string {
  return backMs > NEARLY_A_DAY_MS && backMs <= DAY_MS ? OVER_MIDNIGHT : '';
}
