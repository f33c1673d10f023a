import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { EXPECTATIONS, GUIDING_STATES, TRANSPARENT } from './expectations.js';
import type { Occurrence } from './occurrences.js';

/** What stands around one line: the events before and after it, how far, and whether the shutter is open. */
interface Surroundings {
  readonly before: EventName | null;
  readonly beforeMs: number;
  readonly after: EventName | null;
  readonly afterMs: number;
  /** The nearest star event before and after. */
  readonly starBefore: EventName | null;
  readonly starAfter: EventName | null;
  readonly starAfterMs: number;
  /** The nearest change of the guiding before and after. */
  readonly guidingBefore: EventName | null;
  readonly guidingAfter: EventName | null;
  readonly lastExposureEndMs: number;
  readonly inExposure: boolean | null;
  readonly atMs: number;
}

const OPENS: EventName = 'exposure-begin';
const GUIDING: readonly EventName[] = ['guiding-begin', 'guiding-end', 'guiding-rest-begin', 'guiding-rest-end'];
const STAR: readonly EventName[] = ['star-gap-begin', 'star-gap-end'];

/**
 * Looks at the lines of one kind with the others as they are taken at the moment.
 *
 * @param secondsOpen how long the shutter stays open where no line says that it closes, ms
 */
export function surroundingsOf(
  kind: Kind,
  timeline: readonly Occurrence[],
  events: ReadonlyMap<Kind, EventName>,
  secondsOpen: number,
): Surroundings[] {
  const hasExposures = [...events].some(([other, event]) => other !== kind && event === OPENS);
  const hasEnds = [...events].some(
    ([other, event]) => other !== kind && (event === 'exposure-end' || event === 'exposure-abort'),
  );
  const found: { -readonly [K in keyof Surroundings]: Surroundings[K] }[] = [];
  let before: EventName | null = null;
  let beforeMs = NaN;
  let starBefore: EventName | null = null;
  let guidingBefore: EventName | null = null;
  let endMs = NaN;
  let opened = 0;
  let overlapping = 0;
  let openMs = NaN;
  let waiting: typeof found = [];
  let waitingStar: typeof found = [];
  let waitingGuiding: typeof found = [];
  for (const { kind: other, atMs } of timeline) {
    if (other === kind) {
      const isOpen = !Number.isNaN(openMs) && (hasEnds || atMs < openMs + secondsOpen);
      const one = {
        before,
        beforeMs: atMs - beforeMs,
        after: null,
        afterMs: NaN,
        starBefore,
        starAfter: null,
        starAfterMs: NaN,
        guidingBefore,
        guidingAfter: null,
        lastExposureEndMs: atMs - endMs,
        inExposure: hasExposures ? isOpen : null,
        atMs,
      };
      found.push(one);
      waiting.push(one);
      waitingStar.push(one);
      waitingGuiding.push(one);
      continue;
    }
    const event = events.get(other);
    if (event === undefined) continue;
    if (STAR.includes(event)) {
      for (const one of waitingStar) [one.starAfter, one.starAfterMs] = [event, atMs - one.atMs];
      waitingStar = [];
      starBefore = event;
    }
    if (GUIDING.includes(event)) {
      for (const one of waitingGuiding) one.guidingAfter = event;
      waitingGuiding = [];
      guidingBefore = event;
    }
    if (event === OPENS) {
      opened++;
      if (!Number.isNaN(openMs) && (hasEnds || atMs < openMs + 0.9 * secondsOpen)) overlapping++;
      openMs = atMs;
    }
    if (event === 'exposure-end' || event === 'exposure-abort') [openMs, endMs] = [NaN, atMs];
    if (TRANSPARENT.has(event)) continue;
    for (const one of waiting) [one.after, one.afterMs] = [event, atMs - one.atMs];
    waiting = [];
    [before, beforeMs] = [event, atMs];
  }
  // Two cameras in one log: that one shutter is open says nothing of the other train.
  if (overlapping > 0.2 * opened) for (const one of found) one.inExposure = null;
  return found;
}

/** How well an event fits into its surroundings, −1 to 1, the mean over all lines of the kind; 0 where nothing speaks. */
export function fit(event: EventName, surroundings: readonly Surroundings[], logged: ReadonlySet<EventName>): number {
  if (surroundings.length === 0) return 0;
  return surroundings.reduce((sum, one) => sum + fitOne(event, one, logged), 0) / surroundings.length;
}

function fitOne(event: EventName, one: Surroundings, logged: ReadonlySet<EventName>): number {
  if (event === 'frame-saved') {
    if (one.inExposure === null) return 0;
    return one.lastExposureEndMs >= 0 && one.lastExposureEndMs < 120_000 ? 0.5 : -0.2;
  }
  const expected = EXPECTATIONS[event];
  if (expected === undefined) return 0;
  // Where the log tells one end alone, what stands around the other end stands around this one.
  const begin = beginOf(event);
  const end = endOf(event);
  const after =
    begin === undefined || logged.has(begin)
      ? expected.after
      : [...expected.after, ...(EXPECTATIONS[begin]?.after ?? [])];
  const before =
    end === undefined || logged.has(end) ? expected.before : [...expected.before, ...(EXPECTATIONS[end]?.before ?? [])];
  let score = 0;
  if (event === 'star-gap-begin' || event === 'star-gap-end') {
    const lost = event === 'star-gap-begin';
    const neighbour = lost ? one.starAfter : one.starBefore;
    if (neighbour !== null) score += neighbour === expected.partner ? 0.5 : -0.5;
    if (one.inExposure !== null) score += one.inExposure ? 0.4 : -0.6;
    return score;
  }
  // Nothing begins twice without an end between.
  if (expected.partner !== undefined && one.before === event) score -= 0.6;
  if (expected.partner !== undefined && one.after === event) score -= 0.6;
  if (one.before !== null)
    score += neighbourScore(one.before, after, expected.partner, one.beforeMs, expected.withinSeconds);
  if (one.after !== null)
    score += neighbourScore(one.after, before, expected.partner, one.afterMs, expected.withinSeconds);
  // What is told now and then, whether the shutter is open or not, is chatter and no event.
  if (one.inExposure !== null && expected.inExposure !== null)
    score += one.inExposure === expected.inExposure ? 0.1 : -1.6;
  const states = GUIDING_STATES[event];
  if (states !== undefined) {
    if (one.guidingBefore !== null) score += states.after.includes(one.guidingBefore) ? 0.3 : -0.3;
    if (one.guidingAfter !== null) score += states.before.includes(one.guidingAfter) ? 0.3 : -0.3;
  }
  return Math.max(-2, Math.min(1.2, score));
}

function neighbourScore(
  neighbour: EventName,
  expected: readonly EventName[],
  partner: EventName | undefined,
  gapMs: number,
  withinSeconds = Infinity,
): number {
  if (!expected.includes(neighbour)) return -0.4;
  const near = gapMs <= withinSeconds * 1000;
  if (neighbour === partner) return near ? 0.55 : -0.2;
  return 0.4;
}
