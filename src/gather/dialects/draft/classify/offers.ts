import { beginOf, EVENT_NAMES, type EventName, increment, otherSideOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { holdsOrResumes, isNoise, saysNothing } from '../lexicon/said.js';
import type { StatedTimes } from './night-fit.js';
import { type Sign, signsOf, type Unmade } from './offer-signs.js';

/** An event by how much speaks for it; the differences are what counts. */
export type Offer = readonly [event: EventName, worth: number];

/** So many are offered to choose from. */
export const MOST = 7;
/** The other sides of so many of the likeliest are among them. */
const BOTH_SIDES = 2;
/** The weather holds up once or twice. */
const FEW_LINES = 3;
const HOLDS: readonly EventName[] = ['hold-begin', 'hold-end'];
const OFFERED = EVENT_NAMES.filter((event) => event !== 'note');

/**
 * What each sign weighs: fitted to the lines that drafts of open formats leave over, as a choice of one event for each
 * (a conditional logit; McFadden, _Conditional Logit Analysis of Qualitative Choice Behavior_, 1974), and tried on
 * formats that it was not fitted to. Of what is doubted there are too few: its weight is set by hand.
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

/** How many lines tell each event: what states how long a thing took tells when it began as well. */
export function linesTelling(taken: ReadonlyMap<Kind, EventName>, { tookMs }: StatedTimes): Map<EventName, number> {
  const counts = new Map<EventName, number>();
  for (const [kind, event] of taken) {
    increment(counts, event, kind.count);
    const begin = tookMs.has(kind) ? beginOf(event) : undefined;
    if (begin !== undefined) increment(counts, begin, kind.count);
  }
  return counts;
}

/** All events that the lines of a kind may tell, the likeliest first. */
export function offersFor(unmade: Unmade): readonly Offer[] {
  const { kind, own } = unmade;
  const offers = OFFERED.map((event): Offer => [event, worthOf(unmade, event)]).sort((a, b) => b[1] - a[1]);
  if (!isNoise(kind.wording) && !saysNothing(kind.wording)) return offers;
  // `Wind over 40 km/h, everybody waits`: the weather is chatter until it holds things up.
  const named = [...own].flatMap(([event, words]) => (words > 0 ? [event, otherSideOf(event) ?? event] : []));
  const isHold = !saysNothing(kind.wording) && kind.count <= FEW_LINES && holdsOrResumes(kind.wording);
  return offers.filter(([event]) => named.includes(event) || (isHold && HOLDS.includes(event)));
}

function worthOf(unmade: Unmade, event: EventName): number {
  const signs = signsOf(unmade, event);
  return (Object.keys(WEIGHTS) as Sign[]).reduce((sum, sign) => sum + WEIGHTS[sign] * signs[sign], 0);
}

/**
 * What is offered of all: the likeliest, and the other sides of the two likeliest at the end.
 *
 * @param rule what is made of the lines with an event: of those that come to the same the first is offered alone
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
