import type { EventName } from '../../../../model/index.js';
import { NEXT } from './next-at-once.js';

/** Between the clauses of a line. */
export const CLAUSE = /[,;.!]\s|\s[-–—]\s|[、，。；]|(?<=\p{Script=Han})[,;.](?=\p{Script=Han})/u;

/** A clause that names what it is about, and what becomes of that. */
const CLEAR = 3.4;

type EvidenceOf = (wording: string, hints: string, lead: number) => Map<EventName, number>;

/**
 * What speaks for the events of `quiet, waiting for the dither`: it is the train that is quiet, not the guiding. `null`
 * of other lines.
 */
export function besideStillness(
  wording: string,
  hints: string,
  lead: number,
  evidenceOf: EvidenceOf,
): Map<EventName, number> | null {
  const [first = '', ...others] = wording.slice(lead).split(CLAUSE);
  if (others.length === 0) return null;
  const source = wording.slice(0, lead);
  const still = [...evidenceOf(source + first, hints, lead).keys()];
  if (still.length === 0 || !still.every((event) => event.startsWith('settling-'))) return null;
  const rest = evidenceOf(source + others.join(', '), hints, lead);
  const [best] = [...rest].sort((a, b) => b[1] - a[1]);
  return best?.[0] === 'dither-ready' ? rest : null;
}

/**
 * What speaks for the events of `shift done, settling now`, whose clauses each tell one thing, the second at once
 * after the first: what the one says of its thing is not said of the other. `null` of other lines.
 */
export function inTwoClauses(
  wording: string,
  hints: string,
  lead: number,
  evidenceOf: EvidenceOf,
): Map<EventName, number> | null {
  const [first = '', ...others] = wording.slice(lead).split(CLAUSE);
  if (others.length === 0) return null;
  const told = (clause: string): readonly [EventName, number] | undefined => {
    const [best] = [...evidenceOf(wording.slice(0, lead) + clause, hints, lead)].sort((a, b) => b[1] - a[1]);
    return best !== undefined && best[1] >= CLEAR ? best : undefined;
  };
  const before = told(first);
  const after = before === undefined ? undefined : told(others.join(', '));
  if (before === undefined || after === undefined || NEXT[before[0]]?.includes(after[0]) !== true) return null;
  return new Map([before, after]);
}
