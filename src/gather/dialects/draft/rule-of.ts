import { beginOf, endOf, partition, type EventName } from '../../../model/index.js';
import { isFieldName } from '../../lines/event-fields.js';
import type { Verdict } from './classify/classify.js';
import type { StatedExposure } from './classify/structure.js';
import type { Trains } from './classify/trains.js';
import { placeOf, secondsOf } from './formulas.js';
import { slotNames, tookUnit, type SlotName } from './group-names.js';
import type { Spanning } from './kinds/begin-stamped.js';
import type { Kind, Slot } from './kinds/kind.js';
import type { Part, Ranged } from './kinds/parts.js';
import type { TitledTimes } from './kinds/titled-times.js';
import { nameKey } from './classify/twins.js';
import { loggedLate } from './kinds/logged-late.js';
import { reasonIn } from './reasons.js';
import type { DraftEvent, DraftRule } from './report.js';
import { isBelowMinute, leftOut, lengthOfPart, lengthOfRow } from './rule-lengths.js';
import { eventsOfChange, statedOf, type StateChangeEvents } from './states/change-events.js';

/** The meaning of a kind, before it is written as a rule. */
export interface Plan {
  readonly kind: Kind;
  readonly verdict: Verdict;
  readonly event: EventName | null;
  readonly parts: readonly { readonly part: Part; readonly event: EventName; readonly train?: string | null }[];
  /** The titles of its columns of times say what they are. */
  readonly titled?: TitledTimes;
  /** Its rows state both ends of the span. */
  readonly range?: Ranged;
  /** Its lines are stamped at the begin of a span, and state its duration. */
  readonly span?: Spanning;
  /** Its lines are stamped at the end of an exposure, and state its length in this slot. */
  readonly lasted?: Slot | undefined;
  /** Its lines state which state is left and which is entered. */
  readonly change?: StateChangeEvents;
  /** The reason that its lines give is not captured. */
  readonly isLiteral?: boolean;
}

/** A log without any of these reports only begins, and aborted exposures. */
const OVER: readonly EventName[] = ['filter-end', 'focus-end', 'slew-end', 'settling-end', 'dither-end'];

const OF_EXPOSURES = /^(?:exposure|frame-saved)/;

/** What settling directly follows (common practice, no source). */
const SETTLES: readonly EventName[] = ['dither-end', 'guiding-begin'];

/** Additional events of a rule with times of their own. */
const MOST_PARTS = 6;
/** The same where the titles of columns say which. */
const MOST_TITLED = 20;

/** What is known of the log of a rule. */
export interface OfLog {
  /** The events that the whole log has. */
  readonly logged: ReadonlySet<EventName>;
  readonly stated: readonly StatedExposure[];
  readonly trains: Trains | null;
  /** Its stamps are of whole minutes. */
  readonly isOfMinutes: boolean;
}

/** The rule for a plan. */
export function ruleOf(
  { kind, verdict, event, parts, titled, range, span, lasted: stood, change, isLiteral }: Plan,
  { logged, stated, trains, isOfMinutes }: OfLog,
): Omit<DraftRule, 'choice'> {
  const groups = new Map<Slot, string>();
  const train = kind.exposure?.train ?? (trains === null ? undefined : trainOf(kind, trains, groups));
  const events: DraftEvent[] = [];
  const ofTrain = (name: string | null = null): Pick<DraftEvent, 'train'> =>
    name === null ? {} : { train: trains?.names.find((one) => nameKey(one) === nameKey(name)) ?? name };
  if (titled !== undefined && titled.own !== null && event !== null)
    events.push({ event, ...ofTrain(titled.own.train) });
  for (const { part, event: partEvent, train: name } of parts) {
    const one = { event: partEvent, ...ofTrain(name) };
    const isMade = events.some((made) => made.event === one.event && made.train === one.train);
    if (events.length >= (titled === undefined ? MOST_PARTS : MOST_TITLED) || isMade) continue;
    const at = part.slot.path ?? `at${events.length + 1}`;
    groups.set(part.slot, at);
    events.push({ ...one, at });
  }
  const begun = event === null ? undefined : beginOf(event);
  // It began at the time of its line.
  if (begun !== undefined && span !== undefined) {
    if (span.slot.path === null) groups.set(span.slot, 'took');
    events.push({ event: begun }, ...(event === 'exposure-abort' && kind.exposure !== undefined ? [{ event }] : []));
  }
  const length =
    titled !== undefined && kind.exposure === undefined
      ? undefined
      : begun === undefined || range === undefined
        ? lengthOfPart(kind, parts, logged)
        : lengthOfRow(range);
  if (event !== null && range !== undefined && begun !== undefined) {
    const name = range.slot.path ?? `at${events.length + 1}`;
    groups.set(range.slot, name);
    events.push(range.isEnd ? { event: begun } : { event: begun, at: name });
    if (length === undefined) events.push(range.isEnd ? { event, at: name } : { event });
    // Written some time after the end: with a file, when that was saved.
    else if (event === 'exposure-end' && !logged.has('frame-saved') && hasFile(kind))
      events.push(range.isEnd ? { event: 'frame-saved', at: name } : { event: 'frame-saved' });
  }
  const opened = event === null ? undefined : endOf(event);
  if (event !== null && range !== undefined && begun === undefined && event !== 'dither-ready' && range.isEnd) {
    const name = range.slot.path ?? `at${events.length + 1}`;
    groups.set(range.slot, name);
    // A momentary event happened at the end of its row; a span ended there.
    if (opened !== undefined) events.push({ event }, { event: opened, at: name });
    else events.push({ event, at: name });
  }
  // A report with several times names the file after the time at which it was saved.
  const saved = event === 'frame-saved' && parts.length > 0 ? clockBeforeFile(kind) : undefined;
  if (saved !== undefined && saved.path === null && !groups.has(saved)) {
    const name = `at${events.length + 1}`;
    groups.set(saved, name);
    events.push({ event: 'frame-saved', at: name });
  }
  const spans = begun !== undefined && span !== undefined;
  const isLate = length !== undefined && range !== undefined && begun !== undefined;
  if (event !== null && !spans && !isLate && !events.some((one) => one.event === event)) events.push({ event });
  const calms = events.some((one) => one.event === 'settling-end') && !logged.has('settling-begin');
  // A stated settling time implies settling since the movement.
  const moved = calms ? SETTLES.flatMap((name) => events.filter((one) => one.event === name))[0] : undefined;
  if (moved !== undefined) events.push({ ...moved, event: 'settling-begin' });
  // A dither's move ends where its settling begins.
  const settles = titled === undefined ? undefined : events.find((one) => one.event === 'settling-begin');
  const isMoved = events.some((one) => one.event === 'dither-begin') && !logged.has('dither-end');
  if (settles !== undefined && isMoved) events.push({ ...settles, event: 'dither-end' });
  const own = statedOf(kind, change, stated);
  if (change !== undefined) for (const name of eventsOfChange(change)) if (name !== event) events.push({ event: name });
  const names = new Map<Slot, SlotName>();
  // An additional event in an exposure row has none of its columns.
  const filled = kind.exposure === undefined ? events : events.filter((one) => OF_EXPOSURES.test(one.event));
  // A duration or number belongs primarily to the row's main event.
  const [about, besides] = partition(filled, (one) => one.event === event || one.event === begun);
  for (const one of [...about, ...besides]) {
    const taken = new Set(names.values());
    // What the line of a finished refocus states is what it ended with.
    if (one.event === 'focus-begin' && events.some(({ event: other }) => other === 'focus-end')) continue;
    for (const [slot, name] of slotNames(
      kind,
      one.event,
      own?.seconds ?? length ?? kind.exposure?.asked ?? null,
      groups,
    ))
      if (!names.has(slot) && !taken.has(name) && !groups.has(slot)) names.set(slot, name);
  }
  const isTrain = (text: string): boolean => trains?.names.some((one) => nameKey(one) === nameKey(text)) === true;
  const reason =
    event === null || isLiteral === true || [...names.values()].includes('why')
      ? null
      : reasonIn(kind, event, groups, isTrain);
  if (reason !== null) names.set(reason, 'why');
  const fields: Record<string, string> = {};
  let took: string | undefined;
  let seconds: string | undefined;
  for (const [slot, name] of names) {
    groups.set(slot, name);
    const place = placeOf(slot, name);
    const unit = name === 'seconds' ? (own?.unitSeconds ?? tookUnit(slot) ?? 1) : 1;
    const scaled = unit === 1 ? place : `${place} * ${unit}`;
    if (name === 'took' && !(isOfMinutes && isBelowMinute(slot))) took = secondsOf(slot, name);
    if (name === 'seconds') seconds = scaled;
    const isOther = name === 'seconds' && kind.exposure !== undefined && slot !== kind.exposure.asked;
    if (isFieldName(name) && !isOther && (slot.path !== null || scaled !== name))
      fields[name] = slot.type === 'number' ? scaled : `{${slot.path ?? name}}`;
  }
  const main = spans ? begun : (event ?? undefined);
  const begin = main === undefined ? undefined : beginOf(main);
  const late = event === 'exposure-end' && range === undefined && !spans ? loggedLate(kind, stated) : undefined;
  if (late !== undefined && late.path === null && !groups.has(late)) groups.set(late, 'took');
  if (stood !== undefined && stood.path === null && !groups.has(stood)) groups.set(stood, 'took');
  const lasted =
    stood !== undefined
      ? secondsOf(stood, groups.get(stood))
      : begin !== undefined && !logged.has(begin) && range === undefined
        ? // The requested length is not the actual one after an abort.
          (took ?? (main?.startsWith('exposure') && main !== 'exposure-abort' ? seconds : undefined))
        : undefined;
  const end = main === undefined ? undefined : endOf(main);
  // If another line reports, or may report, ends of exposures, planned seconds are not an end; a file saved right after
  // them confirms them.
  const isBorneOut = stated.some((one) => one.begin === kind);
  const endsOtherwise =
    (logged.has('frame-saved') && !isBorneOut) ||
    (logged.has('exposure-abort') && !OVER.some((one) => logged.has(one)) && !statesAbort(events));
  const planned =
    main === 'exposure-begin' && end !== undefined && !logged.has(end) && !endsOtherwise ? seconds : undefined;
  if (length !== undefined && length.path === null && !groups.has(length)) groups.set(length, 'took');
  const inPlace = leftOut(kind, range);
  const whole = length ?? inPlace;
  const lasts = spans ? secondsOf(span.slot) : whole === undefined ? planned : secondsOf(whole, groups.get(whole));
  return {
    // A rule makes each event once for a train: the row's main event takes precedence over an additional time.
    events: events.filter(
      ({ event: name, train: own }, i) => events.findLastIndex((one) => one.event === name && one.train === own) === i,
    ),
    when: kind.when(groups),
    groups,
    fields,
    ...(train === undefined ? {} : { train }),
    ...(lasted === undefined ? {} : { lasted }),
    ...(lasts === undefined ? {} : { lasts }),
    ...(late === undefined ? {} : { ago: secondsOf(late, groups.get(late)) }),
    ...(kind.exposure?.isMid === true && spans ? { ago: `${secondsOf(span.slot)} / 2` } : {}),
    count: kind.count,
    firstLine: kind.firstLine,
    examples: kind.examples,
    score: verdict.score,
    margin: kind.exposure?.isSure === false ? 0 : verdict.margin,
    kind,
  };
}

/** Whether the rows of exposures themselves state which of them were cut short, and when: the others were not. */
function statesAbort(events: readonly DraftEvent[]): boolean {
  return events.some(({ event, at }) => event === 'exposure-abort' && at !== undefined);
}

const hasFile = ({ slots }: Kind): boolean => slots.some(({ type }) => type === 'file');

function clockBeforeFile({ slots }: Kind): Slot | undefined {
  const before = slots[slots.findIndex(({ type }) => type === 'file') - 1];
  return before?.type === 'clock' ? before : undefined;
}

/** The train in rule syntax: the name in all of its lines, or the field with the name; a group is named. */
function trainOf(kind: Kind, trains: Trains, groups: Map<Slot, string>): string | undefined {
  const slot = trains.slotOf(kind);
  if (slot === null) return trains.nameOf(kind) ?? undefined;
  groups.set(slot, 'train');
  return slot.path === null ? undefined : `{${slot.path}}`;
}
