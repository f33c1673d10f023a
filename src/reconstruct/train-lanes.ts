/**
 * What one train does beside exposing: refocus, filter change, readout, waiting for a dither; and holds.
 */
import {
  interval,
  type Activity,
  type ActivityOutline,
  type Frame,
  type Interval,
  type LogEvent,
  type Source,
  type Warning,
} from '../model/index.js';
import { pairSpans } from './spans.js';

const FOCUS = { begin: 'focus-begin', end: 'focus-end', overBy: ['exposure-begin'] } as const;
const FILTER = { begin: 'filter-begin', end: 'filter-end', overBy: ['exposure-begin', 'focus-begin'] } as const;
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
  const focus = pairSpans(own, FOCUS, untilMs);
  const filter = pairSpans(own, FILTER, untilMs);
  const withDithers = [...own.filter((e) => e.event !== 'dither-begin'), ...ditherBegins].sort(
    (a, b) => a.atMs - b.atMs,
  );
  // A readiness that nothing follows is no fault of the log: the session may have ended there.
  const ready = pairSpans(
    withDithers.filter((e) => e.event === 'dither-ready' || e.event === 'dither-begin' || e.event === 'exposure-begin'),
    READY,
    untilMs,
  ).spans.filter((s) => s.end !== undefined);
  return {
    activities: [
      ...focus.spans.map(
        (s): Activity => ({
          ...base(s),
          kind: 'focus',
          train,
          facts: {
            ok: s.end?.ok,
            sizeBefore: s.end?.sizeBefore ?? s.begin.sizeBefore,
            sizeAfter: s.end?.sizeAfter,
            position: s.end?.position,
            temperature: s.end?.temperature ?? s.begin.temperature,
          },
        }),
      ),
      ...filter.spans.map(
        (s): Activity => ({ ...base(s), kind: 'filter', train, facts: { to: s.begin.to ?? s.end?.to } }),
      ),
      ...ready.map((s): Activity => ({ ...base(s), kind: 'dither-ready', train })),
    ],
    warnings: [...focus.warnings, ...filter.warnings],
  };
}

/** Holds: the pilot's stop every train, a companion's only itself. */
export function holdActivities(
  events: readonly LogEvent[],
  train: string | undefined,
  untilMs: number,
): { activities: Activity[]; warnings: Warning[] } {
  const { spans, warnings } = pairSpans(events, HOLD, untilMs);
  return { activities: spans.map((s): Activity => ({ ...base(s), kind: 'hold', train })), warnings };
}

/** Readout as the log tells it: from the shutter's end to the file's saving. */
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

/** What of a begin or an end every activity takes over. */
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
