import { beginOf, EVENT_NAMES, type EventName, increment, otherSideOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { holdsOrResumes, isNoise, saysNothing } from '../lexicon/said.js';
import type { Ranking } from './decode.js';
import { asOften } from './usual-counts.js';
import type { StatedTimes } from './night-fit.js';

/** So many of the likeliest events are offered to choose from. */
const OFFERED = 4;
const FEW_OFFERED = 3;
const MOST = 7;
/** Events that make the night worse by more than this are not. */
const FAR = 3.5;
/** The weather holds up once or twice. */
const FEW_LINES = 3;
const HOLDS: readonly EventName[] = ['hold-begin', 'hold-end'];

/** The likeliest events, and at the end the other sides of the two likeliest, where its line may stand there. */
export function likeliestOf(all: Ranking): EventName[] {
  const near = all.filter(([, value]) => value > -FAR);
  // Where nothing comes near, what comes nearest is still better than a list of all events.
  const likeliest = (near.length >= FEW_OFFERED ? near : all.slice(0, FEW_OFFERED))
    .slice(0, OFFERED)
    .map(([event]) => event);
  const others = likeliest.slice(0, 2).flatMap((event) => otherSideOf(event) ?? []);
  return [...new Set([...likeliest, ...others])];
}

/** How many lines tell each event: what states how long a thing took tells when it began as well. */
export function linesTelling(
  taken: ReadonlyMap<Kind, { readonly event: EventName | null }>,
  { tookMs }: StatedTimes,
): Map<EventName, number> {
  const counts = new Map<EventName, number>();
  for (const [kind, { event }] of taken) {
    if (event === null) continue;
    increment(counts, event, kind.count);
    const begin = tookMs.has(kind) ? beginOf(event) : undefined;
    if (begin !== undefined) increment(counts, begin, kind.count);
  }
  return counts;
}

/** What is known of a kind that nothing is made of. */
export interface Unmade {
  /** The likeliest events, best first. */
  readonly nearest: readonly EventName[];
  /** How much better each makes the night, and what the words speak for. */
  readonly ranking: Ranking;
  readonly own: ReadonlyMap<EventName, number>;
}

/** So many of the likeliest come first, whatever else is known. */
const FIRST = 2;
/** The night counts less here than what the log leaves untold: it has put these lines nowhere. */
const NIGHT = 0.15;
const WORST = -6;
const NAMED = 1;
const UNTOLD = 2;
/** The same of what has but one side: many a log never tells it. */
const UNTOLD_MOMENT = 0.5;
const ONE_SIDE = 0.75;
const AS_OFTEN = 1.5;
const BOTH_SIDES = -1;
/** A thing's two sides are told as often as each other, within this. */
const TIMES = 2;

/**
 * What to offer of a kind that nothing is made of: what is likeliest, then what comes as often as its lines do and is
 * told by no others, or of which they tell the other side alone.
 *
 * @param counts how many lines tell each event
 */
export function offersFor(
  kind: Kind,
  { nearest, ranking, own }: Unmade,
  counts: ReadonlyMap<EventName, number>,
): readonly EventName[] {
  if (nearest.length >= MOST || saysNothing(kind.wording)) return nearest;
  // `Wind over 40 km/h, everybody waits`: the weather is chatter until it holds things up.
  if (isNoise(kind.wording))
    return kind.count <= FEW_LINES && holdsOrResumes(kind.wording) ? [...new Set([...nearest, ...HOLDS])] : nearest;
  const nights = new Map(ranking);
  const worth = (event: EventName): number => {
    const other = otherSideOf(event);
    const isNamed = own.has(event) || (other !== undefined && own.has(other));
    const night = NIGHT * Math.max(WORST, nights.get(event) ?? WORST);
    return night + (isNamed ? NAMED : 0) + asOften(event, kind.count) + untold(event, kind.count, counts);
  };
  const offers = EVENT_NAMES.filter((event) => event !== 'note').map((event) => [event, worth(event)] as const);
  const best = offers.sort((a, b) => b[1] - a[1]).map(([event]) => event);
  return [...new Set([...nearest.slice(0, FIRST), ...best])].slice(0, MOST);
}

/** How much is to be said for lines telling what others leave out. */
function untold(event: EventName, lines: number, counts: ReadonlyMap<EventName, number>): number {
  const other = otherSideOf(event);
  const told = counts.get(event) ?? 0;
  const missing = (other === undefined ? 0 : (counts.get(other) ?? 0)) - told;
  if (missing > 0) return ONE_SIDE + (missing <= TIMES * lines && lines <= TIMES * missing ? AS_OFTEN : 0);
  if (other === undefined) return told === 0 ? UNTOLD_MOMENT : 0;
  return told === 0 ? UNTOLD : BOTH_SIDES;
}
