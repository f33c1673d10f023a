import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { holdsOrResumes, isNoise, saysNothing } from '../lexicon/said.js';
import type { Ranking } from './decode.js';

/** So many of the likeliest events are offered to choose from. */
const OFFERED = 4;
const FEW_OFFERED = 3;
const MOST = 7;
/** Events that make the night worse by more than this are not. */
const FAR = 3.5;
/** A few lines of a night, of which nothing is known, are what happens seldom; some of the weather, once or twice. */
const SELDOM_LINES = 8;
const FEW_LINES = 3;
const HOLDS: readonly EventName[] = ['hold-begin', 'hold-end'];
const SELDOM: readonly EventName[] = [...HOLDS, 'star-gap-begin', 'star-gap-end', 'flip-begin', 'flip-end'];
/** What logs tell both sides of, or leave out: an abort is the end of what has its own. */
const IN_PAIRS: readonly EventName[] = [
  'hold-begin',
  'star-gap-begin',
  'flip-begin',
  'guiding-rest-begin',
  'guiding-begin',
  'filter-begin',
  'focus-begin',
  'slew-begin',
  'centre-begin',
  'settling-begin',
  'dither-begin',
];

/** The likeliest events, and at the end the other sides of the two likeliest, where its line may stand there. */
export function likeliestOf(all: Ranking): EventName[] {
  const near = all.filter(([, value]) => value > -FAR);
  // Where nothing comes near, what comes nearest is still better than a list of all events.
  const likeliest = (near.length >= FEW_OFFERED ? near : all.slice(0, FEW_OFFERED))
    .slice(0, OFFERED)
    .map(([event]) => event);
  const others = likeliest.slice(0, 2).flatMap((event) => endOf(event) ?? beginOf(event) ?? []);
  return [...new Set([...likeliest, ...others])];
}

/**
 * What to offer of a kind that nothing is made of: what is likeliest, then the sides that are missing where the log
 * tells the other side of a thing, then what happens seldom; of a kind of many lines what happens often.
 *
 * @param counts how many lines tell each event
 */
export function offersFor(
  kind: Kind,
  nearest: readonly EventName[],
  counts: ReadonlyMap<EventName, number>,
): readonly EventName[] {
  if (nearest.length >= MOST || saysNothing(kind.wording)) return nearest;
  if (kind.count > SELDOM_LINES) return isNoise(kind.wording) ? nearest : withOften(kind, nearest, counts);
  // `Wind over 40 km/h, everybody waits`: the weather is chatter until it holds things up.
  if (isNoise(kind.wording))
    return kind.count <= FEW_LINES && holdsOrResumes(kind.wording) ? [...new Set([...nearest, ...HOLDS])] : nearest;
  const count = (event: EventName): number => counts.get(event) ?? 0;
  const missing = IN_PAIRS.flatMap((begin): { event: EventName; lines: number }[] => {
    const end = endOf(begin) ?? begin;
    const lines = count(begin) - count(end);
    return lines === 0 ? [] : [{ event: lines > 0 ? end : begin, lines: Math.abs(lines) }];
  }).sort((a, b) => Math.abs(a.lines - kind.count) - Math.abs(b.lines - kind.count));
  return [...new Set([...nearest, ...missing.map(({ event }) => event), ...SELDOM])].slice(0, MOST);
}

/** What happens after every few frames, or with each. */
const OFTEN: readonly EventName[] = [
  'settling-end',
  'settling-begin',
  'dither-end',
  'dither-begin',
  'dither-ready',
  'frame-saved',
  'exposure-end',
];
/** A thing's two sides are told as often as each other, within this. */
const AS_OFTEN = 2;

/** Of a kind of many lines: the sides that are missing as often as it comes, then what is often, and is not told. */
function withOften(
  kind: Kind,
  nearest: readonly EventName[],
  counts: ReadonlyMap<EventName, number>,
): readonly EventName[] {
  const count = (event: EventName): number => counts.get(event) ?? 0;
  const isAsOften = (lines: number): boolean => lines <= AS_OFTEN * kind.count && kind.count <= AS_OFTEN * lines;
  const missing = OFTEN.filter((event) => {
    const other = endOf(event) ?? beginOf(event);
    return other !== undefined && isAsOften(count(other) - count(event));
  });
  const untold = OFTEN.filter((event) => count(event) === 0);
  return [...new Set([...nearest, ...missing, ...untold])].slice(0, MOST);
}
