import { endOf, type EventName } from '../../../model/index.js';
import { shortlist } from './classify/offers.js';
import type { Kind } from './kinds/kind.js';
import type { Choice, UnusedLines } from './report.js';
import { ruleOf, type OfLog, type Plan } from './rule-of.js';

/** The lines of a kind, listed as unclassified. */
export function unusedOf(kind: Kind, choice: Choice, doubted: readonly EventName[] = []): UnusedLines {
  const { summary, count, firstLine, examples } = kind;
  const nearest = choice.likeliest(doubted);
  return { template: summary, when: kind.when(new Map()), count, firstLine, examples, nearest, kind, choice };
}

/** The alternatives for the lines of a plan. */
export function choiceOf(plan: Plan, log: Omit<OfLog, 'logged'>): Choice {
  const { change: _, ...whole } = plan;
  const ruleFor: Choice['ruleFor'] = (event, logged) =>
    ruleOf({ ...whole, event, parts: [], isLiteral: true }, { ...log, logged });
  // A line that states both ends of a span, or one end and a duration, yields both events whichever is chosen.
  const outcomeOf = (event: EventName): string => {
    if (plan.range === undefined && plan.span === undefined) return event;
    const { events, lasts } = ruleFor(event, new Set());
    const names = events.map((one) => one.event);
    return [...names, ...(lasts === undefined ? [] : names.flatMap((name) => endOf(name) ?? []))].sort().join();
  };
  return { likeliest: (doubted) => shortlist(plan.verdict.offers(doubted), outcomeOf), ruleFor };
}
