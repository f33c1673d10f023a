import { endOf, type EventName } from '../../../model/index.js';
import type { Kind } from './kinds/kind.js';
import type { Plan } from './rule-of.js';
import { eventsOfChange } from './states/change-events.js';

/** Fewer may follow each other by chance. */
const FEWEST = 3;
/** From the begin of a refocus, or of a guiding pause, to its end, ms. Common practice, no source. */
const LONGEST_MS = 900_000;
/** What two things begun in one second hide from each other: either may come first. */
const BEGINS: readonly EventName[] = ['focus-begin', 'guiding-rest-begin'];

/**
 * The plans with the begins that the log's ends lack: a kind left open that would most likely be that begin, where each
 * of its lines is followed by an end of its own.
 */
export function withMissingBegins(plans: readonly Plan[]): readonly Plan[] {
  const logged = new Set(
    plans.flatMap(({ event, parts, change }) => [
      ...(change !== undefined ? eventsOfChange(change) : [event]),
      ...parts.map((one) => one.event),
    ]),
  );
  const adopted = new Map<Plan, EventName>();
  for (const begin of BEGINS) {
    const end = endOf(begin);
    if (end === undefined || logged.has(begin) || !logged.has(end)) continue;
    const endsMs = plans.flatMap(({ kind, event }) => (event === end ? kind.atMs : [])).sort((a, b) => a - b);
    const open = plans.filter(
      (plan) =>
        plan.event === null &&
        plan.parts.length === 0 &&
        plan.change === undefined &&
        isEachEnded(plan.kind, endsMs) &&
        plan.verdict.offers([])[0]?.[0] === begin,
    );
    const [only, ...others] = open;
    if (only !== undefined && others.length === 0) adopted.set(only, begin);
  }
  return adopted.size === 0 ? plans : plans.map((plan) => ({ ...plan, event: adopted.get(plan) ?? plan.event }));
}

/** Whether begins and ends take turns, with as many of both. */
function isEachEnded({ atMs }: Kind, endsMs: readonly number[]): boolean {
  const begins = [...atMs].sort((a, b) => a - b);
  if (begins.length < FEWEST || begins.length !== endsMs.length) return false;
  return begins.every((ms, i) => {
    const end = endsMs[i] ?? NaN;
    return end >= ms && end - ms <= LONGEST_MS && end <= (begins[i + 1] ?? Infinity);
  });
}
