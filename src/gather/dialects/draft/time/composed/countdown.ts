import { StampPattern } from '../../../time/stamp.js';
import type { Candidate } from '../stamp-candidates.js';
import { proofOf } from '../stamp-proof.js';
import { timesOf } from '../times-of.js';

/** Words of a log that counts what is left. */
export const COUNTDOWN =
  /(?<!\p{L})(?:count(?:s|ing)?[ -]?down|remaining|left|to go|minus|verbleib\p{L}*|countdown|restant\p{L}*|il reste|falta\p{L}*|restan\p{L}*|mancan\p{L}*|rimanent\p{L}*|resterend\p{L}*|nog te gaan|zb[ýy]v\p{L}*|pozosta\p{L}*|återst\p{L}*|осталось|jäljellä)(?!\p{L})|残り|剩余|剩餘/iu;
const UNPROVED = { coverage: 0, forward: 0 } as const;
/** Minimum fraction of the steps of a countdown that go back. */
const BACK = 0.9;

/** A candidate whose counts nearly all go back, as counts of what is left. */
export function countedDown(candidate: Candidate, lines: readonly string[]): Candidate {
  const { guess } = candidate;
  if (
    !guess.pattern.includes('{elapsed}') ||
    !goesBack(
      timesOf(
        { ...guess, ...UNPROVED },
        lines.map((text) => ({ text })),
      ),
    )
  )
    return candidate;
  const pattern = guess.pattern.replace('{elapsed}', '{elapsed*-1}');
  return { ...candidate, guess: { ...guess, pattern }, proof: proofOf(new StampPattern(pattern), guess.at, lines) };
}

function goesBack(times: readonly number[]): boolean {
  const steps = times.slice(1).map((ms, i) => ms - (times[i] ?? NaN));
  const moving = steps.filter((ms) => ms !== 0);
  return moving.length > 0 && moving.filter((ms) => ms < 0).length >= BACK * moving.length;
}
