import type { EventName } from '../../../model/index.js';
import type { Trains } from './classify/trains.js';
import type { Kind } from './kinds/kind.js';
import type { DraftRule } from './report.js';
import type { Plan } from './rule-of.js';
import { eventsOfChange } from './states/change-events.js';
import { impliedBy, isBefore } from './two-at-once.js';

const RESTS = { event: 'guiding-rest-begin' } as const;

/** What the log's other lines are. */
export interface OfOthers {
  readonly taken: readonly (readonly [Kind, EventName])[];
  readonly trains: Trains | null;
  /** Events that later lines date. */
  readonly dated: ReadonlySet<EventName>;
  /** The only events that a kind may be, in a log about guiding alone. */
  readonly only: ((kind: Kind) => readonly EventName[]) | undefined;
}

/** The rule with the additional events that its lines imply. */
export function withNext(
  { kind, event, parts, range, span, change }: Plan,
  rule: DraftRule,
  { taken, trains, dated, only }: OfOthers,
): DraftRule {
  if (change !== undefined) return { ...rule, events: eventsOfChange(change).map((name) => ({ event: name })) };
  const trainOf = (one: Kind, nth: number): number => trains?.of(one, nth) ?? -1;
  const also = event === null || parts.length > 0 || range || span ? null : impliedBy(kind, event, taken, trainOf);
  if (also === null || event === null || dated.has(also) || only?.(kind).includes(also) === false) return rule;
  // `guiding rests, focusing`: a reason, if no line reports its end.
  const neverEnds = [also, event].includes('focus-begin') && !taken.some(([, name]) => name === 'focus-end');
  if (neverEnds && [also, event].includes('guiding-rest-begin')) return { ...rule, events: [RESTS] };
  const events = isBefore(also, event) ? [{ event: also }, ...rule.events] : [...rule.events, { event: also }];
  return { ...rule, events };
}
