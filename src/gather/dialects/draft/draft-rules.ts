import { beginOf, endOf, EVENT_NAMES, type EventName } from '../../../model/index.js';
import { isFieldName } from '../../lines/event-fields.js';
import { classify, NOTHING_SAID, type Candidate, type Verdict } from './classify/classify.js';
import type { StatedExposure } from './classify/structure.js';
import type { Trains } from './classify/trains.js';
import { placeOf, scaledTook } from './formulas.js';
import { slotNames, tookUnit, type SlotName } from './group-names.js';
import { beginStamped, type Spanning } from './kinds/begin-stamped.js';
import type { Kind, Slot, WhenText } from './kinds/kind.js';
import { partsOf, rangeOf, type OtherTime, type OwnStamp, type Part, type Ranged } from './kinds/parts.js';
import { inOrder } from './rule-order.js';
import { alsoTold, isBefore } from './two-at-once.js';
import type { DraftEvent, DraftRule, UnusedLines } from './report.js';

/** What the kinds of a log were turned into. */
export interface DraftedRules {
  readonly rules: readonly DraftRule[];
  readonly unused: readonly UnusedLines[];
  /** Some rule has events at times that its lines state. */
  readonly usesCaughtTimes: boolean;
}

/** What a kind makes, before it is written as a rule. */
interface Plan {
  readonly kind: Kind;
  readonly verdict: Verdict;
  readonly event: EventName | null;
  readonly parts: readonly { readonly part: Part; readonly event: EventName }[];
  /** Its rows state both ends of the thing. */
  readonly range?: Ranged;
  /** Its lines stand where a thing begins, and say how long it took. */
  readonly span?: Spanning;
}

/** Events with times of their own that a rule makes, besides the two that its line may be about: six are the most. */
const MOST_PARTS = 4;

/** What a third time of a row cannot be. */
const BESIDE_RANGE: readonly EventName[] = EVENT_NAMES.filter((event) => !event.startsWith('exposure'));

/** Proposes rules for kinds of lines; what is too doubtful is left over, with the events that come nearest. */
export function draftRules(
  kinds: readonly Kind[],
  extra: ReadonlyMap<Kind, ReadonlyMap<EventName, number>> = new Map(),
  ownStamp: OwnStamp = 'apart',
  only?: readonly EventName[],
  counted?: OtherTime,
): DraftedRules {
  const ranges = new Map(
    kinds.flatMap((kind): [Kind, Ranged][] => {
      const range = rangeOf(kind, counted);
      return range === null ? [] : [[kind, range]];
    }),
  );
  // Where rows with both ends stand at the end, what states how long it took does so, too.
  const spans = [...ranges.values()].every(({ isEnd }) => isEnd)
    ? beginStamped(kinds.filter((kind) => !ranges.has(kind)))
    : new Map<Kind, Spanning>();
  const parts = kinds.flatMap((kind) =>
    partsOf(kind, ownStamp).filter(
      ({ slot }) => !ranges.has(kind) || (slot !== ranges.get(kind)?.slot && slot.path !== null),
    ),
  );
  const withParts = new Set(parts.map(({ whole }) => whole).filter((kind) => !ranges.has(kind)));
  const candidates: Candidate[] = [
    ...kinds.map(
      (kind): Candidate => ({
        kind: (ranges.get(kind) ?? spans.get(kind))?.kind ?? kind,
        ...(ranges.has(kind) || spans.has(kind) ? { tookMs: (ranges.get(kind) ?? spans.get(kind))?.tookMs ?? [] } : {}),
        // What a report tells with times of its own has happened then, not when the report was written.
        ...(withParts.has(kind) ? { only: ['frame-saved'] as const } : only === undefined ? {} : { only }),
        ...(extra.has(kind) ? { extra: extra.get(kind) } : {}),
      }),
    ),
    // A row that states both ends of a thing states a third time besides: when what came of it was saved, say.
    ...parts.map(({ kind, whole }) => (ranges.has(whole) ? { kind, only: BESIDE_RANGE } : { kind })),
  ];
  const { verdicts, stated, trains } = classify(candidates);
  const plans = kinds.map((kind): Plan => {
    const range = ranges.get(kind);
    const span = spans.get(kind);
    const verdict = verdicts.get((range ?? span)?.kind ?? kind) ?? NOTHING_SAID;
    return {
      kind,
      verdict,
      event: verdict.event,
      ...(range === undefined ? {} : { range }),
      ...(span === undefined ? {} : { span }),
      parts: parts.flatMap((part) => {
        const event = part.whole === kind ? verdicts.get(part.kind)?.event : null;
        return event ? [{ part, event }] : [];
      }),
    };
  });
  const logged = new Set(
    plans.flatMap(({ event, parts: own }) => [...(event ? [event] : []), ...own.map((one) => one.event)]),
  );
  const told = plans.flatMap(({ kind, event }) => (event === null ? [] : [[kind, event] as const]));
  const used = plans.filter(
    ({ kind, event, parts: own }) => (event !== null || own.length > 0) && hasCondition(kind.when(new Map())),
  );
  return {
    rules: inOrder(used.map((plan) => withNext(plan, ruleOf(plan, logged, stated, trains), told, trains))),
    unused: plans
      .filter((plan) => !used.includes(plan))
      .map(({ kind, verdict }) => ({
        template: kind.summary,
        when: kind.when(new Map()),
        count: kind.count,
        firstLine: kind.firstLine,
        examples: kind.examples,
        nearest: verdict.nearest,
        kind,
      })),
    usesCaughtTimes: plans.some(({ parts: own, range }) => own.length > 0 || range !== undefined),
  };
}

/** The rule with what its lines tell besides. */
function withNext(
  { kind, event, parts, range, span }: Plan,
  rule: DraftRule,
  told: readonly (readonly [Kind, EventName])[],
  trains: Trains | null,
): DraftRule {
  const trainOf = (one: Kind, nth: number): number => trains?.of(one, nth) ?? -1;
  const also = event === null || parts.length > 0 || range || span ? null : alsoTold(kind, event, told, trainOf);
  if (also === null || event === null) return rule;
  const events = isBefore(also, event) ? [{ event: also }, ...rule.events] : [...rule.events, { event: also }];
  return { ...rule, events };
}

/** The rule that makes one event of a kind, for a kind that somebody has decided on. */
export function ruleFor(kind: Kind, event: EventName, logged: ReadonlySet<EventName>): DraftRule {
  const verdict: Verdict = { ...NOTHING_SAID, event, nearest: [event] };
  return ruleOf({ kind, verdict, event, parts: [] }, logged, [], null);
}

function ruleOf(
  { kind, verdict, event, parts, range, span }: Plan,
  logged: ReadonlySet<EventName>,
  stated: readonly StatedExposure[],
  trains: Trains | null,
): DraftRule {
  const groups = new Map<Slot, string>();
  const train = trains === null ? undefined : trainOf(kind, trains, groups);
  const events: DraftEvent[] = [];
  for (const { part, event: partEvent } of parts) {
    if (events.length >= MOST_PARTS || events.some((one) => one.event === partEvent)) continue;
    const name = part.slot.path ?? `at${events.length + 1}`;
    groups.set(part.slot, name);
    events.push({ event: partEvent, at: name });
  }
  const begun = event === null ? undefined : beginOf(event);
  // It began where its line stands.
  if (begun !== undefined && span !== undefined) {
    if (span.slot.path === null) groups.set(span.slot, 'took');
    events.push({ event: begun });
  }
  if (event !== null && range !== undefined && begun !== undefined) {
    const name = range.slot.path ?? 'at1';
    groups.set(range.slot, name);
    events.push(range.isEnd ? { event: begun } : { event: begun, at: name });
    events.push(range.isEnd ? { event, at: name } : { event });
  }
  const opened = event === null ? undefined : endOf(event);
  if (event !== null && range !== undefined && begun === undefined && event !== 'dither-ready' && range.isEnd) {
    const name = range.slot.path ?? 'at1';
    groups.set(range.slot, name);
    // What only happens has happened at the end of its row; what begins has ended there.
    if (opened !== undefined) events.push({ event }, { event: opened, at: name });
    else events.push({ event, at: name });
  }
  // A report of several times names the file behind the time at which it was saved.
  const saved = event === 'frame-saved' && parts.length > 0 ? clockBeforeFile(kind) : undefined;
  if (saved !== undefined && saved.path === null && !groups.has(saved)) {
    const name = `at${events.length + 1}`;
    groups.set(saved, name);
    events.push({ event: 'frame-saved', at: name });
  }
  const spans = begun !== undefined && span !== undefined;
  if (event !== null && !spans && !events.some((one) => one.event === event)) events.push({ event });
  const own = stated.find((one) => one.begin === kind);
  const names = new Map<Slot, SlotName>();
  for (const one of events) {
    const taken = new Set(names.values());
    for (const [slot, name] of slotNames(kind, one.event, own?.seconds ?? null))
      if (!names.has(slot) && !taken.has(name) && !groups.has(slot)) names.set(slot, name);
  }
  const fields: Record<string, string> = {};
  let took: string | undefined;
  let seconds: string | undefined;
  for (const [slot, name] of names) {
    groups.set(slot, name);
    const place = placeOf(slot, name);
    const scaled =
      name === 'seconds' && own !== undefined && own.unitSeconds !== 1 ? `${place} * ${own.unitSeconds}` : place;
    const unit = tookUnit(slot);
    if (name === 'took') took = unit === null || unit === 1 ? place : `${place} * ${unit}`;
    if (name === 'seconds') seconds = scaled;
    if (isFieldName(name) && (slot.path !== null || scaled !== name))
      fields[name] = slot.type === 'number' ? scaled : `{${slot.path ?? name}}`;
  }
  const main = spans ? begun : (event ?? undefined);
  const begin = main === undefined ? undefined : beginOf(main);
  const lasted =
    begin !== undefined && !logged.has(begin) && range === undefined
      ? // What was asked for is not what it came to when it was cut short.
        (took ?? (main?.startsWith('exposure') && main !== 'exposure-abort' ? seconds : undefined))
      : undefined;
  const end = main === undefined ? undefined : endOf(main);
  // Where exposures may be cut short, or another line says that they are over, planned seconds are no end.
  const endsOtherwise = logged.has('exposure-abort') || logged.has('frame-saved');
  const planned =
    main === 'exposure-begin' && end !== undefined && !logged.has(end) && !endsOtherwise ? seconds : undefined;
  const lasts = spans ? scaledTook(span.slot) : planned;
  return {
    // A rule makes each of its events once: what the row is about counts more than a time that it states besides.
    events: events.filter(({ event: name }, i) => events.findLastIndex((one) => one.event === name) === i),
    when: kind.when(groups),
    fields,
    ...(train === undefined ? {} : { train }),
    ...(lasted === undefined ? {} : { lasted }),
    ...(lasts === undefined ? {} : { lasts }),
    count: kind.count,
    firstLine: kind.firstLine,
    examples: kind.examples,
    score: verdict.score,
    margin: verdict.margin,
    kind,
  };
}

function clockBeforeFile({ slots }: Kind): Slot | undefined {
  const before = slots[slots.findIndex(({ type }) => type === 'file') - 1];
  return before?.type === 'clock' ? before : undefined;
}

/** The train as a rule says it: the name in all of its lines, or the field with the name; a group is given its name. */
function trainOf(kind: Kind, trains: Trains, groups: Map<Slot, string>): string | undefined {
  const slot = trains.slotOf(kind);
  if (slot === null) return trains.nameOf(kind) ?? undefined;
  groups.set(slot, 'train');
  return slot.path === null ? undefined : `{${slot.path}}`;
}

/** A row without words is no kind that a rule could tell. */
function hasCondition(when: WhenText): boolean {
  return typeof when === 'string' || Object.keys(when).length > 0;
}
