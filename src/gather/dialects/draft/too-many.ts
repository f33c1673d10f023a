import type { EventName } from '../../../model/index.js';
import type { Plan } from './rule-of.js';

/** No more frequent than exposures: a wheel turns between two of them, a mount slews between many. */
const SELDOM = /^(?:filter|focus|flip|centre|slew)-/;
const MIN_EXPOSURES = 20;
const MORE = 1.2;

/**
 * The plans without those for rare events that are more frequent than exposures: `done` alone, whatever it is, is not a
 * turn of a wheel.
 */
export function withoutTooMany(plans: readonly Plan[]): readonly Plan[] {
  const countOf = (wanted: EventName): number =>
    plans.reduce((sum, { event, kind }) => sum + (event === wanted ? kind.count : 0), 0);
  const exposures = Math.max(countOf('exposure-begin'), countOf('exposure-end'));
  if (exposures < MIN_EXPOSURES) return plans;
  return plans.map((plan) =>
    plan.change === undefined && plan.event !== null && SELDOM.test(plan.event) && plan.kind.count > MORE * exposures
      ? { ...plan, event: null }
      : plan,
  );
}
