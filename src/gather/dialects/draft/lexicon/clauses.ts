import type { EventName } from '../../../../model/index.js';
import { NEXT } from './next-at-once.js';

/** Separators between clauses of a line. */
export const CLAUSE = /[,;.!]\s|\s[-–—]\s|[、，。；]|(?<=\p{Script=Han})[,;.](?=\p{Script=Han})/u;

/** Evidence of a clause that names its subject and outcome. */
const CLEAR = 3.4;

type EvidenceOf = (wording: string, hints: string, lead: number) => Map<EventName, number>;

/**
 * The evidence of a line with several clauses, where the first contributes what the others do not; `null` for other
 * lines.
 */
export function ofClauses(
  wording: string,
  hints: string,
  lead: number,
  evidenceOf: EvidenceOf,
): Map<EventName, number> | null {
  const [first = '', ...others] = wording.slice(lead).split(CLAUSE);
  if (others.length === 0) return null;
  const evidenceIn = (clause: string): Map<EventName, number> =>
    evidenceOf(wording.slice(0, lead) + clause, hints, lead);
  const before = evidenceIn(first);
  const isStill = before.size > 0 && [...before.keys()].every((event) => event.startsWith('settling-'));
  const ended = likeliest(before);
  const isClear = ended !== undefined && ended[1] >= CLEAR;
  if (!isStill && !isClear) return null;
  const rest = evidenceIn(others.join(', '));
  const next = likeliest(rest);
  // `quiet, waiting for the dither`: the train is quiet, not the guiding.
  if (isStill && next?.[0] === 'dither-ready') return rest;
  // `shift done, settling now`: one clause's outcome does not apply to the other's subject.
  if (!isClear || next === undefined || next[1] < CLEAR || NEXT[ended[0]]?.includes(next[0]) !== true) return null;
  return new Map([ended, next]);
}

function likeliest(evidence: ReadonlyMap<EventName, number>): readonly [EventName, number] | undefined {
  return [...evidence].sort((a, b) => b[1] - a[1])[0];
}
