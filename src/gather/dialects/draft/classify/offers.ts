import { beginOf, EVENT_NAMES, type EventName, increment, otherSideOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { holdsOrResumes, isNoise, saysNothing } from '../lexicon/said.js';
import type { StatedTimes } from './night-fit.js';
import { type Sign, signsOf, type Unmade } from './offer-signs.js';

/** An event with its score; only differences matter. */
export type Offer = readonly [event: EventName, worth: number];

/** Number of events offered. */
export const MOST = 7;
/** The other sides of this many of the likeliest are included. */
const BOTH_SIDES = 2;
/** Weather causes only one or two holds a night. */
const FEW_LINES = 3;
const HOLDS: readonly EventName[] = ['hold-begin', 'hold-end'];
const OFFERED = EVENT_NAMES.filter((event) => event !== 'note');

/**
 * The weight of each sign: fitted to the unclassified lines in drafts of open formats, as a discrete choice of one
 * event per line (a conditional logit; McFadden, _Conditional Logit Analysis of Qualitative Choice Behavior_, 1974),
 * and validated on formats not used in the fit. There are too few doubted events: their weight is set by hand.
 */
const WEIGHTS: Readonly<Record<Sign, number>> = {
  named: 0.9,
  mostNamed: 1.0,
  otherNamed: 0.5,
  night: 0.1,
  before: 0.8,
  after: 1.0,
  between: 2.1,
  asOften: 0.5,
  otherTaken: 0.5,
  otherAsOften: 1.1,
  untaken: 1.4,
  taken: -0.9,
  untakenMoment: 1.7,
  endIsOver: 0.7,
  beginIsOver: -0.5,
  tookEnd: 0.3,
  waits: 1.6,
  inTurn: 0.5,
  notByTrain: -0.5,
  byTrain: -1.7,
  doubted: -1,
  filter: 1.1,
  target: 1.2,
  number: 0.8,
};

/** Number of lines that report each event: a line that states a duration reports the begin as well. */
export function linesTelling(taken: ReadonlyMap<Kind, EventName>, { tookMs }: StatedTimes): Map<EventName, number> {
  const counts = new Map<EventName, number>();
  for (const [kind, event] of taken) {
    increment(counts, event, kind.count);
    const begin = tookMs.has(kind) ? beginOf(event) : undefined;
    if (begin !== undefined) increment(counts, begin, kind.count);
  }
  return counts;
}

/** All possible events of a kind, likeliest first. */
export function offersFor(unmade: Unmade): readonly Offer[] {
  const { kind, own } = unmade;
  const offers = OFFERED.map((event): Offer => [event, worthOf(unmade, event)]).sort((a, b) => b[1] - a[1]);
  if (!isNoise(kind.wording) && !saysNothing(kind.wording)) return offers;
  // `Wind over 40 km/h, everybody waits`: weather is irrelevant until it causes a hold.
  const named = [...own].flatMap(([event, words]) => (words > 0 ? [event, otherSideOf(event) ?? event] : []));
  const isHold = !saysNothing(kind.wording) && kind.count <= FEW_LINES && holdsOrResumes(kind.wording);
  return offers.filter(([event]) => named.includes(event) || (isHold && HOLDS.includes(event)));
}

function worthOf(unmade: Unmade, event: EventName): number {
  const signs = signsOf(unmade, event);
  return (Object.keys(WEIGHTS) as Sign[]).reduce((sum, sign) => sum + WEIGHTS[sign] * signs[sign], 0);
}

/**
 * The events offered: the likeliest, then the other sides of the two likeliest.
 *
 * @param rule the rule that an event would yield: of events with the same result only the first is offered
 */
export function shortlist(offers: readonly Offer[], rule: (event: EventName) => string): readonly EventName[] {
  const rules = new Set<string>();
  const events = offers.flatMap(([event]) => {
    const known = rules.size;
    return rules.add(rule(event)).size > known ? [event] : [];
  });
  const first = events.slice(0, MOST);
  const others = events.slice(0, BOTH_SIDES).flatMap((event) => otherSideOf(event) ?? []);
  const missing = others.filter((event) => events.includes(event) && !first.includes(event));
  return [...first.slice(0, MOST - missing.length), ...missing];
}
