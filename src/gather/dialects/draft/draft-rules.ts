import { endOf, EVENT_NAMES, type EventName } from '../../../model/index.js';
import { choiceOf, unusedOf } from './choice.js';
import { classify, NOTHING_SAID, type Candidate } from './classify/classify.js';
import { allowed } from './allowed.js';
import type { Trains } from './classify/trains.js';
import { askedColumns } from './kinds/asked-columns.js';
import { beginStamped, framesBegun, type Spanning } from './kinds/begin-stamped.js';
import type { Kind, WhenText } from './kinds/kind.js';
import { partsOf, type OtherTime, type OwnStamp, type Part, type Ranged } from './kinds/parts.js';
import { exposureCandidate, exposureEvent, isEnd, exposureSpans } from './exposures/exposure-spans.js';
import { paragraphKinds } from './kinds/several-sentences.js';
import { endIn } from './kinds/leading-on.js';
import { spansOf } from './kinds/spans-in-sentences.js';
import { thirdTime } from './kinds/third-time.js';
import { trainsInNames } from './kinds/trains-in-names.js';
import { asTitled, titledTimes } from './kinds/titled-times.js';
import { datedBegins } from './dated-begins.js';
import { extraOf } from './extra-evidence.js';
import { saysInVain } from './lexicon/said.js';
import { partCandidate } from './part-candidate.js';
import { capturesReason, isTooWide, tellsOutright } from './reasons.js';
import { inOrder } from './rule-order.js';
import { withOutcomes } from './stated-outcomes.js';
import { lengthOfRow } from './rule-lengths.js';
import { ruleOf, type Plan } from './rule-of.js';
import { statesIn } from './states/states.js';
import { eventsOfChange, mainEvent } from './states/change-events.js';
import { withoutTooMany } from './too-many.js';
import { withMissingBegins } from './missing-begins.js';
import { withNext } from './with-next.js';
import type { DraftRule, UnusedLines } from './report.js';

/** The result of drafting rules for a log's kinds. */
export interface DraftedRules {
  readonly rules: readonly DraftRule[];
  readonly unused: readonly UnusedLines[];
  /** Some rule has events at times stated in its lines. */
  readonly usesCaughtTimes: boolean;
  /** The trains that its lines are about, `null` if they are of one. */
  readonly trains: Trains | null;
}

/** What happens when a report is written; and, if all its other times are later, what begins then. */
const SAVED: readonly EventName[] = ['frame-saved'];
const BEGUN: readonly EventName[] = [...SAVED, ...EVENT_NAMES.filter((event) => endOf(event) !== undefined)];

const NEARLY_ALL = 0.9;

/** What is known of a log beside its kinds of line. */
export interface BesideKinds {
  /** Evidence from elsewhere, such as the session's frames. */
  readonly extra: ReadonlyMap<Kind, ReadonlyMap<EventName, number>>;
  readonly ownStamp: OwnStamp;
  /** The only events that a kind may be, in a log about guiding alone. */
  readonly only: ((kind: Kind) => readonly EventName[]) | undefined;
  /** Reads the second counter of a line, and times inside sentences, if stamps are counters. */
  readonly counted: OtherTime | undefined;
  readonly again: OtherTime | undefined;
  /** Its stamps are of whole minutes. */
  readonly isOfMinutes: boolean;
}

/** Proposes rules for kinds of line; kinds that are too uncertain stay unclassified, with their likeliest events. */
export function draftRules(
  all: readonly Kind[],
  { extra, ownStamp, only, counted, again, isOfMinutes }: BesideKinds,
): DraftedRules {
  const paragraphs = paragraphKinds(all);
  const kinds = all.filter((kind) => !paragraphs.has(kind));
  const exposures = exposureSpans(kinds);
  const titled = titledTimes(kinds);
  const others = kinds.filter((kind) => kind.exposure === undefined && !titled.has(kind));
  const ranges = new Map([...spansOf(others, ownStamp, counted, again), ...exposures.ranges]);
  // If rows with both ends are stamped at the end, so are those that state a duration.
  const begun = [...ranges.values()].every((range) => range.isEnd)
    ? new Map([
        ...framesBegun(others, new Map([...ranges].map(([kind, { kind: over }]) => [kind, over]))),
        ...beginStamped(
          others.filter((kind) => !ranges.has(kind)),
          [...ranges.values()].some(({ length }) => length !== undefined),
        ),
      ])
    : new Map<Kind, Spanning>();
  const spans = new Map([...begun, ...exposures.spans]);
  const asked = askedColumns(kinds);
  const parts = kinds.flatMap((kind) =>
    partsOf(kind, ownStamp).filter(
      (part) =>
        !isEnd(part, exposures) &&
        !asked.has(part.slot.path ?? '') &&
        (!ranges.has(kind) ||
          (part.slot !== ranges.get(kind)?.slot &&
            (part.slot.path !== null || part.slot.isFront === true || endIn(kind) === ranges.get(kind)?.slot))),
    ),
  );
  const withParts = new Set(parts.map(({ whole }) => whole).filter((kind) => !ranges.has(kind)));
  const states = only === undefined ? statesIn(kinds, extra) : null;
  const candidates: Candidate[] = [
    ...(states?.candidates ?? []),
    ...kinds
      .filter((kind) => states?.has(kind) !== true)
      .map((kind): Candidate => {
        const shot = exposureEvent(kind);
        if (shot !== undefined) return exposureCandidate(kind, exposures, shot);
        const own = titled.get(kind)?.own ?? null;
        if (own !== null) return { kind, ...asTitled(own) };
        return {
          kind: (ranges.get(kind) ?? spans.get(kind))?.kind ?? kind,
          ...tookOf(ranges.get(kind), spans.get(kind)),
          // Events that a report dates itself happened then, not when the report was written.
          ...(withParts.has(kind)
            ? { only: standsFirst(kind, parts) ? BEGUN : SAVED }
            : allowed(kind, only?.(kind), ranges.get(kind))),
          ...extraOf(kind, extra.get(kind), withParts.has(kind) && standsFirst(kind, parts)),
        };
      }),
    ...parts.map((part) => partCandidate(part, parts, exposures, ranges, titled)),
  ];
  const { verdicts, stated, trains } = classify(candidates, states?.cameras ?? trainsInNames(kinds));
  const log = { stated, trains, isOfMinutes };
  const changes = states?.changesBy(verdicts);
  const isSaved = [...verdicts.values()].some(({ event }) => event === 'frame-saved');
  const plans = withMissingBegins(
    withoutTooMany(
      withWhole(
        kinds.map((kind): Plan => {
          const change = changes?.get(kind);
          if (change !== undefined)
            return { kind, verdict: change.verdict, event: mainEvent(change), parts: [], change: change };
          const range = ranges.get(kind);
          const span = spans.get(kind);
          const verdict = verdicts.get((range ?? span)?.kind ?? kind) ?? NOTHING_SAID;
          const times = titled.get(kind);
          return {
            kind,
            verdict,
            event: exposureEvent(kind) ?? times?.own?.event ?? verdict.event,
            ...(times === undefined ? {} : { titled: times }),
            ...(exposures.lasted.has(kind) ? { lasted: exposures.lasted.get(kind) } : {}),
            ...(range === undefined ? {} : { range }),
            ...(span === undefined ? {} : { span }),
            parts: parts.flatMap((part) => {
              if (part.whole !== kind) return [];
              const named = times?.others.get(part.slot);
              if (named !== undefined) return [{ part, event: named.event, train: named.train }];
              const said = verdicts.get(part.kind)?.event ?? null;
              // The two ends of the row are known; a third time that resembles one of them is neither.
              const isEither = said === null || said === verdict.event || endOf(said) === verdict.event;
              const own = (isEither ? thirdTime(part, range, verdict.event, isSaved) : null) ?? said;
              return own === null ? [] : [{ part, event: own }];
            }),
          };
        }),
      ),
    ),
  );
  const logged = new Set(
    plans.flatMap(({ event, parts: own, change }) => [
      ...(change !== undefined ? eventsOfChange(change) : event === null ? [] : [event]),
      ...own.map((one) => one.event),
    ]),
  );
  const taken = plans.flatMap(({ kind, event }) => (event === null ? [] : [[kind, event] as const]));
  const used = plans.filter(
    ({ kind, event, parts: own }) => (event !== null || own.length > 0) && hasCondition(kind.when(new Map())),
  );
  const made = used.map((plan) => {
    const rule = ruleOf(plan, { ...log, logged });
    const isOther = (other: Plan): boolean =>
      other.event === null && other.parts.length === 0 ? !tellsOutright(rule) : !isAlike(plan, other);
    const others = capturesReason(rule) ? plans.filter(isOther).map(({ kind }) => kind) : [];
    const own = isTooWide(rule, others) ? ruleOf({ ...plan, isLiteral: true }, { ...log, logged }) : rule;
    return [plan, { ...own, choice: choiceOf(plan, log) }] as const;
  });
  // Anything that a later line dates by a duration need not be reported twice.
  const dated = datedBegins(made.map(([, rule]) => rule));
  const rules = withOutcomes(made.map(([plan, rule]) => withNext(plan, rule, { taken, trains, dated, only })));
  // `Closed and saved as …` also ends an exposure.
  const endsExposures = rules.some(({ events }) => events.some(({ event }) => event === 'exposure-end'));
  return {
    rules: inOrder(endsExposures ? rules.map((rule, i) => withoutPlanned(made[i]?.[0], rule)) : rules),
    unused: [...plans, ...[...paragraphs].map((kind) => ({ kind, verdict: NOTHING_SAID, event: null, parts: [] }))]
      .filter((plan) => !used.includes(plan))
      .map((plan) => unusedOf(plan.kind, choiceOf(plan, log))),
    trains,
    usesCaughtTimes: plans.some(({ parts: own, range }) => own.length > 0 || range !== undefined),
  };
}

/** The durations of a kind's spans, and the number that states them. */
function tookOf(range: Ranged | undefined, span: Spanning | undefined): Pick<Candidate, 'tookMs' | 'took'> {
  if (range !== undefined) return { tookMs: range.tookMs };
  if (span === undefined) return {};
  return { tookMs: span.tookMs, ...(span.isExposure === true ? {} : { took: span.slot }) };
}

/** Whether the lines of a kind are stamped with the first of the times in their fields. */
function standsFirst(kind: Kind, parts: readonly Part[]): boolean {
  const others = parts.filter(({ whole }) => whole === kind);
  return kind.atMs.every((atMs, i) => others.every(({ kind: { atMs: own } }) => !((own[i] ?? NaN) <= atMs)));
}

/**
 * Logged once, when the file is saved: if no line reports the shutter, the begin and length stated by such lines are
 * those of the exposure.
 */
function withWhole(plans: readonly Plan[]): readonly Plan[] {
  if (plans.some(({ event }) => event === 'exposure-begin' || event === 'exposure-end')) return plans;
  return plans.map((plan) =>
    (plan.event === 'frame-saved' && plan.range !== undefined && lengthOfRow(plan.range) !== undefined) ||
    isSavedAfter(plan)
      ? { ...plan, event: 'exposure-end' }
      : plan,
  );
}

/** Minimum median exposure, ms, for a third time after both ends to be the saving. */
const OPEN_MS = 20_000;

function isSavedAfter({ event, range, parts }: Plan): boolean {
  if (event !== null || range?.isEnd !== true || !parts.some((one) => one.event === 'frame-saved')) return false;
  return range.tookMs.filter((ms) => ms >= OPEN_MS).length >= NEARLY_ALL * range.tookMs.length;
}

/** The rule without the planned end of an exposure. */
function withoutPlanned(plan: Plan | undefined, rule: DraftRule): DraftRule {
  if (plan?.event !== 'exposure-begin' || plan.span !== undefined || plan.range !== undefined || plan.parts.length > 0)
    return rule;
  const { lasts: _, ...others } = rule;
  return others;
}

/** Whether the lines of two plans say the same, with the same outcome. */
function isAlike(one: Plan, other: Plan): boolean {
  return one.event === other.event && saysInVain(one.kind.wording) === saysInVain(other.kind.wording);
}

/** No rule could identify rows without words. */
function hasCondition(when: WhenText): boolean {
  return typeof when === 'string' || Object.keys(when).length > 0;
}
