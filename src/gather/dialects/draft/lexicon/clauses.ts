import type { EventName } from '../../../../model/index.js';

/** Between the clauses of a line. */
export const CLAUSE = /[,;.!]\s|\s[-–—]\s|[、，。；]|(?<=\p{Script=Han})[,;.](?=\p{Script=Han})/u;

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
