import type { EventName } from '../../../model/index.js';
import type { Kind } from './kinds/kind.js';
import { plainWords } from './lexicon/plain-words.js';
import { SUBJECTS } from './lexicon/subjects.js';
import { wordEvidence } from './lexicon/word-evidence.js';

/** What a program does next at once, and may tell in the same line (common practice, no source). */
const NEXT: Readonly<Partial<Record<EventName, readonly EventName[]>>> = {
  'exposure-end': ['dither-ready'],
  'dither-end': ['settling-begin'],
  'slew-end': ['centre-begin'],
  'centre-end': ['guiding-begin'],
  'guiding-begin': ['settling-begin'],
  'guiding-rest-begin': ['focus-begin'],
  'focus-end': ['guiding-rest-end'],
  'guiding-rest-end': ['settling-begin'],
};
/** A subject that is named, and what becomes of it. */
const CLEAR = 3.4;
const CLAUSES = /[;,.:!–—]\s|\s[-–—+&]\s|\s(?:and|und|et|e|y|en|i|a|then|dann|puis|poi|luego|depois|dan)\s|[、，。；]/u;
const SAVED = SUBJECTS.find(({ id }) => id === 'frame')?.strong;
/** Another line that tells the same stands this near. */
const NEAR_MS = 30_000;
const ELSEWHERE = 0.3;

/**
 * What the lines of a kind tell besides its event, as one follows the other at once: `closed, saved as h0001.fits`,
 * `moved, waiting for it to settle`. Nothing where other lines tell it.
 *
 * @param told the other kinds of the log with what they are taken for
 */
export function alsoTold(
  kind: Kind,
  event: EventName,
  told: readonly (readonly [Kind, EventName])[],
): EventName | null {
  const isElsewhere = (also: EventName): boolean => {
    const others = told.filter(([one, name]) => name === also && one !== kind).flatMap(([{ atMs }]) => atMs);
    const beside = kind.atMs.filter((atMs) => others.some((other) => Math.abs(other - atMs) < NEAR_MS));
    return beside.length > ELSEWHERE * kind.atMs.length;
  };
  const hasFile = kind.slots.some(({ type }) => type === 'file');
  if (event === 'exposure-end' && hasFile && SAVED?.test(plainWords(kind.wording)) === true)
    return isElsewhere('frame-saved') ? null : 'frame-saved';
  const clauses = kind.wording.slice(kind.lead).split(CLAUSES).slice(1);
  for (const also of NEXT[event] ?? [])
    for (const clause of clauses) {
      const evidence = wordEvidence(clause);
      const value = evidence.get(also) ?? 0;
      if (value >= CLEAR && value >= Math.max(...evidence.values()) && !isElsewhere(also)) return also;
    }
  return null;
}
