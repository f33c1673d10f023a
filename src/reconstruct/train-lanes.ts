/** What one train does besides exposing: refocus, filter change, readout, waiting for a dither; and holds. */
import {
  interval,
  type Activity,
  type ActivityKind,
  type ActivityOutline,
  type EventName,
  type EventOf,
  type FactsOf,
  type Frame,
  type Interval,
  type LogEvent,
  type Source,
  type Warning,
} from '../model/index.js';
import { pairSpans, type PairingRule } from './spans.js';

/** What a train does separately, from the events that begin and end it. One entry per kind. */
const OWN = [
  lane({ begin: 'focus-begin', end: 'focus-end', overBy: ['exposure-begin'] }, (begin, end) => ({
    kind: 'focus',
    facts: {
      ok: end?.ok,
      sizeBefore: end?.sizeBefore ?? begin.sizeBefore,
      sizeAfter: end?.sizeAfter,
      position: end?.position,
      temperature: end?.temperature ?? begin.temperature,
    },
  })),
  lane({ begin: 'filter-begin', end: 'filter-end', overBy: ['exposure-begin', 'focus-begin'] }, (begin, end) => ({
    kind: 'filter',
    facts: { to: begin.to ?? end?.to },
  })),
];

const HOLD = { begin: 'hold-begin', end: 'hold-end', overBy: [] } as const;
const READY = { begin: 'dither-ready', end: 'dither-begin', overBy: ['exposure-begin'] } as const;

/**
 * Reads one train's own activities.
 *
 * @param own the train's events, sorted
 * @param ditherBegins the mount's dither begins of all logs, which end a readiness
 */
export function trainActivities(
  train: string,
  own: readonly LogEvent[],
  ditherBegins: readonly LogEvent[],
  untilMs: number,
): { activities: Activity[]; warnings: Warning[] } {
  const lanes = OWN.map((read) => read(train, own, untilMs));
  const withDithers = [...own.filter((e) => e.event !== 'dither-begin'), ...ditherBegins].sort(
    (a, b) => a.atMs - b.atMs,
  );
  // A readiness without a successor is no fault of the log: the session may have ended there. If no log of the mount
  // was read, one that the next exposure ends was a wait nevertheless: its length becomes known when that log is
  // joined.
  const ready = pairSpans(
    withDithers.filter((e) => e.event === 'dither-ready' || e.event === 'dither-begin' || e.event === 'exposure-begin'),
    READY,
    untilMs,
  ).spans.filter((s) => s.end !== undefined || (ditherBegins.length === 0 && s.span.endMs < untilMs));
  return {
    activities: [
      ...lanes.flatMap(({ activities }) => activities),
      ...ready.map((s): Activity => ({ ...base(s), kind: 'dither-ready', train })),
    ],
    warnings: lanes.flatMap(({ warnings }) => warnings),
  };
}

interface Lane {
  readonly activities: readonly Activity[];
  readonly warnings: readonly Warning[];
}

/** A kind with its possible facts. */
type KindWithFacts = { [K in ActivityKind]: { readonly kind: K; readonly facts?: FactsOf<K> } }[ActivityKind];

/** Reads a kind's activities out of one train's events. */
function lane<B extends EventName, E extends EventName>(
  rule: PairingRule<B, E>,
  make: (begin: EventOf<B>, end: EventOf<E> | undefined) => KindWithFacts,
): (train: string, own: readonly LogEvent[], untilMs: number) => Lane {
  return (train, own, untilMs) => {
    const { spans, warnings } = pairSpans(own, rule, untilMs);
    return { activities: spans.map((s): Activity => ({ ...base(s), train, ...make(s.begin, s.end) })), warnings };
  };
}

/**
 * Holds: the pilot's stop every train, a companion's only itself.
 *
 * @param lightsMs begins of the lights of the train that holds, sorted: if no line ends the hold, they show that it is
 * over
 */
export function holdActivities(
  events: readonly LogEvent[],
  train: string | undefined,
  untilMs: number,
  lightsMs: readonly number[],
): { activities: Activity[]; warnings: Warning[] } {
  const { spans, warnings } = pairSpans(events, HOLD, untilMs, lightsMs, 'light');
  return { activities: spans.map((s): Activity => ({ ...base(s), kind: 'hold', train })), warnings };
}

/** Readout according to the log: from the shutter's end to saving the file. */
export function measuredReadouts(frames: readonly Frame[]): Activity[] {
  return frames.flatMap((frame): Activity[] =>
    frame.savedMs !== undefined && frame.savedMs > frame.exposure.endMs
      ? [
          {
            kind: 'readout',
            train: frame.train,
            span: interval(frame.exposure.endMs, frame.savedMs),
            certainty: 'measured',
            sources: frame.sources,
          },
        ]
      : [],
  );
}

/** The facts of a begin or end that every activity takes over. */
interface Edge {
  readonly why?: string;
  readonly source: Source;
}

function base({
  span,
  begin,
  end,
}: {
  readonly span: Interval;
  readonly begin: Edge;
  readonly end?: Edge;
}): Omit<ActivityOutline, 'kind'> {
  return {
    span,
    why: begin.why ?? end?.why,
    certainty: end ? 'measured' : 'inferred',
    sources: [begin.source, ...(end ? [end.source] : [])],
  };
}
