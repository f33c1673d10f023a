/** The guiding lane: on, paused, star lost, stopped, as a chain of states read from all logs. */
import {
  interval,
  isKeyOf,
  type Activity,
  type ActivityKind,
  type EventOf,
  type Interval,
  type LogEvent,
} from '../model/index.js';

type State = Extract<ActivityKind, 'guiding-on' | 'guiding-rest' | 'star-gap' | 'guiding-stopped'>;

/** The state after a guiding event. */
const NEXT = {
  'guiding-begin': 'guiding-on',
  'guiding-rest-end': 'guiding-on',
  'star-gap-end': 'guiding-on',
  'guiding-rest-begin': 'guiding-rest',
  'star-gap-begin': 'star-gap',
  'guiding-end': 'guiding-stopped',
} as const satisfies Partial<Record<LogEvent['event'], State>>;

type Change = EventOf<keyof typeof NEXT>;

/** A refocus that begins or ends this close to a pause is its reason, ms. */
const FOCUS_NEAR_MS = 30_000;

/**
 * Reads the guiding states. Empty when no log mentions guiding: then nothing is known about it.
 *
 * @param events every log's, on one clock, sorted
 * @param focusRuns all trains' refocus activities, to name who paused the guiding
 * @param night the span within which the first and last state hold
 */
export function guidingActivities(
  events: readonly LogEvent[],
  focusRuns: readonly Activity[],
  night: Interval,
): Activity[] {
  const changes = events.filter((e): e is Change => isKeyOf(NEXT, e.event));
  const first = changes[0];
  if (!first) return [];
  const activities: Activity[] = [];
  // A log that opens with a start of guiding implies that there was none before.
  let state: State | null = first.event === 'guiding-begin' ? 'guiding-stopped' : null;
  let since = night.startMs;
  let opener: Change | null = null;

  const close = (endMs: number): void => {
    if (state === null || endMs <= since) return;
    activities.push(toActivity(state, interval(since, endMs), opener, focusRuns));
  };

  for (const event of changes) {
    const next = NEXT[event.event];
    // A star lost or found while paused does not change the pause; while stopped only a start changes anything.
    if (next === state) continue;
    if (state === 'guiding-rest' && (event.event === 'star-gap-begin' || event.event === 'star-gap-end')) continue;
    if (state === 'guiding-stopped' && next !== 'guiding-on') continue;
    close(event.atMs);
    state = next;
    since = Math.max(event.atMs, night.startMs);
    opener = event;
  }
  close(Math.max(night.endMs, since));
  return activities;
}

function toActivity(kind: State, span: Interval, opener: Change | null, focusRuns: readonly Activity[]): Activity {
  const near =
    kind === 'guiding-rest'
      ? focusRuns.filter(
          (f) => f.span.startMs <= span.endMs + FOCUS_NEAR_MS && f.span.endMs >= span.startMs - FOCUS_NEAR_MS,
        )
      : [];
  // The computer that logged the pause is the likeliest to have requested it.
  const run = near.find((f) => f.train === opener?.train) ?? near[0];
  return {
    kind,
    span,
    causedBy: run?.train,
    why: opener?.why ?? (run ? 'refocus' : undefined),
    certainty: opener ? 'measured' : 'inferred',
    sources: opener ? [opener.source] : [],
  };
}
