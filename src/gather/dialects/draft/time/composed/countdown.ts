import { StampPattern } from '../../../time/stamp.js';
import type { Candidate } from '../stamp-candidates.js';
import { proofOf } from '../stamp-proof.js';

/** Words of a log that counts what is left. */
export const COUNTDOWN =
  /(?<!\p{L})(?:count(?:s|ing)?[ -]?down|remaining|left|to go|minus|verbleib\p{L}*|countdown|restant\p{L}*|il reste|falta\p{L}*|restan\p{L}*|mancan\p{L}*|rimanent\p{L}*|resterend\p{L}*|nog te gaan|zb[ýy]v\p{L}*|pozosta\p{L}*|återst\p{L}*|осталось|jäljellä)(?!\p{L})|残り|剩余|剩餘/iu;
/** Fraction of steps of a countdown that go forward as counts do. */
const HARDLY = 0.2;

/** A candidate whose counts nearly all go back, as counts of what is left. */
export function countedDown(candidate: Candidate, lines: readonly string[]): Candidate {
  const { guess, proof } = candidate;
  if (candidate.kind !== 'elapsed' || proof.forward > HARDLY || !/\{elapsed\}/.test(guess.pattern)) return candidate;
  const pattern = guess.pattern.replace('{elapsed}', '{elapsed*-1}');
  return { ...candidate, guess: { ...guess, pattern }, proof: proofOf(new StampPattern(pattern), guess.at, lines) };
}
