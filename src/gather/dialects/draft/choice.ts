import { endOf, type EventName } from '../../../model/index.js';
import { shortlist } from './classify/offers.js';
import type { StatedExposure } from './classify/structure.js';
import type { Trains } from './classify/trains.js';
import type { Kind } from './kinds/kind.js';
import type { Choice, UnusedLines } from './report.js';
import { ruleOf, type Plan } from './rule-of.js';

/** The lines of a kind as ones that nothing is made of. */
export function unusedOf(kind: Kind, choice: Choice, doubted: readonly EventName[] = []): UnusedLines {
  const { summary, count, firstLine, examples } = kind;
  const nearest = choice.likeliest(doubted);
  return { template: summary, when: kind.when(new Map()), count, firstLine, examples, nearest, kind, choice };
}

/** What else might be made of the lines of a plan. */
export function choiceOf(plan: Plan, stated: readonly StatedExposure[], trains: Trains | null): Choice {
  const { change: _, ...whole } = plan;
  const ruleFor: Choice['ruleFor'] = (event, logged) => ruleOf({ ...whole, event, parts: [] }, logged, stated, trains);
  // What states both ends of a thing, or one and how long it took, tells both, whichever is chosen.
  const outcomeOf = (event: EventName): string => {
    if (plan.range === undefined && plan.span === undefined) return event;
    const { events, lasts } = ruleFor(event, new Set());
    const names = events.map((one) => one.event);
    return [...names, ...(lasts === undefined ? [] : names.flatMap((name) => endOf(name) ?? []))].sort().join();
  };
  return { likeliest: (doubted) => shortlist(plan.verdict.offers(doubted), outcomeOf), ruleFor };
}
