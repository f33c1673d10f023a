import { beginOf, endOf, type EventName, type FieldName, hasField, otherSideOf } from '../../../../model/index.js';
import { statesTook } from '../group-names.js';
import type { Kind } from '../kinds/kind.js';
import type { Course } from '../lexicon/said.js';
import type { Stated } from './durations.js';
import type { Side } from './in-turn.js';
import type { Around } from './surroundings.js';
import { asOften } from './usual-counts.js';

/** What is known about an unclassified kind and the log around it. */
export interface Unmade {
  readonly kind: Kind;
  /** The evidence of its words and values. */
  readonly own: ReadonlyMap<EventName, number>;
  /** How much each event improved the timeline when all kinds were classified together. */
  readonly nights: ReadonlyMap<EventName, number>;
  /** How well each event fits between the events before and after its lines. */
  readonly around: Around;
  /** Number of lines that report each event. */
  readonly counts: ReadonlyMap<EventName, number>;
  /** What its words say happens to the subject. */
  readonly course: ReadonlySet<Course>;
  readonly duration: Stated | undefined;
  /** Which side of a span it is, if it alternates with another unclassified kind. */
  readonly side: Side | null;
  /** The train that its lines name, by number; −1 for none, `null` in a log of one train. */
  readonly train: number | null;
  /** The event that was withdrawn because the timeline contradicts it. */
  readonly doubted: readonly EventName[];
}

/** What a train does separately; the rest is done by the single mount and guider. */
const BY_TRAIN = /^(?:exposure|filter|focus|frame|cooler|dither-ready)/;
/** Types of value, and the facts of an event that have them. */
const FACTS: Readonly<Record<'filter' | 'designation' | 'number', readonly FieldName[]>> = {
  filter: ['filter', 'to'],
  designation: ['target'],
  number: ['seconds', 'pixels', 'sizeAfter', 'position', 'temperature'],
};
/** Cap on the evidence for the other side. */
const SURE = 6;
const NO_WORTH = -6;
const BEST_WORTH = 3;
/** Tolerance between the numbers of both sides of a span. */
const TIMES = 2;

/** The evidence for and against an event, by sign. */
export type Signs = Readonly<Record<Sign, number>>;
export type Sign = keyof ReturnType<typeof signsOf>;

/** The evidence for and against classifying a kind as an event. */
export function signsOf(unmade: Unmade, event: EventName) {
  const { kind, own, nights, around, counts, course, duration, side, train, doubted } = unmade;
  const other = otherSideOf(event);
  const words = own.get(event) ?? 0;
  const night = nights.get(event);
  const [before, after] = [around.before.get(event) ?? 0, around.after.get(event) ?? 0];
  const taken = counts.get(event) ?? 0;
  const missing = (other === undefined ? 0 : (counts.get(other) ?? 0)) - taken;
  const isBegin = endOf(event) !== undefined;
  const isEnd = beginOf(event) !== undefined;
  const is = (...names: readonly Course[]): boolean => names.some((name) => course.has(name));
  const tells = statesTook(kind) || duration === 'past';
  return {
    named: when(words > 0),
    mostNamed: when(words > 0 && words === Math.max(...own.values())),
    otherNamed: other === undefined ? 0 : Math.min(SURE, Math.max(0, own.get(other) ?? 0)),
    night: night === undefined ? NO_WORTH : Math.max(NO_WORTH, Math.min(BEST_WORTH, night)),
    before,
    after,
    between: before > 0 && after > 0 ? before * after : 0,
    asOften: asOften(event, kind.count),
    otherTaken: when(missing > 0),
    otherAsOften: when(missing > 0 && missing <= TIMES * kind.count && kind.count <= TIMES * missing),
    untaken: when(other !== undefined && missing <= 0 && taken === 0),
    taken: when(other !== undefined && missing <= 0 && taken > 0),
    untakenMoment: when(other === undefined && taken === 0),
    endIsOver: when(isEnd && is('ends') && !is('begins')),
    beginIsOver: when(isBegin && is('ends') && !is('begins')),
    tookEnd: when(isEnd && tells),
    waits: when(is('waits') && /^(?:hold-begin|dither-ready|guiding-rest-begin)$/.test(event)),
    inTurn: side === null ? 0 : (side === 'begin' ? 1 : -1) * (isBegin ? 1 : isEnd ? -1 : 0),
    notByTrain: when(train !== null && train >= 0 && !BY_TRAIN.test(event)),
    byTrain: when(train !== null && train < 0 && BY_TRAIN.test(event)),
    doubted: when(doubted.includes(event)),
    filter: states(kind, event, 'filter'),
    target: states(kind, event, 'designation'),
    number: states(kind, event, 'number'),
  };
}

function when(holds: boolean): number {
  return holds ? 1 : 0;
}

/** Whether the lines state values of a type that the event has facts of. */
function states({ slots }: Kind, event: EventName, sort: keyof typeof FACTS): number {
  return when(slots.some(({ type }) => type === sort) && FACTS[sort].some((fact) => hasField(event, fact)));
}
