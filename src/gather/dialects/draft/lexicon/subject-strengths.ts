import { saysMotion } from './said.js';
import { SUBJECTS, type Subject, type SubjectId } from './subjects.js';

/** Evidence of a word that names a subject, and of one that hints at it. */
export const STRONG = 2.4;
export const WEAK = 1.2;
const HINT = 0.7;
const FIRST_NAMED = 0.4;
/** Evidence of the device that wrote a line, if the line only states an outcome. */
const FROM_SOURCE = 2.2;
/** And if the line names a subject of its own. */
const BESIDE = 1.2;
/** Of several subjects, a rarely named one counts more than a device with many functions. */
const SPECIFIC: Readonly<Partial<Record<SubjectId, number>>> = {
  settling: 0.6,
  dither: 0.6,
  star: 0.55,
  flip: 0.5,
  centre: 0.4,
  focus: 0.15,
  hold: 0.1,
};
/** Reduction of other evidence by an irrelevant line. */
export const NOISE = 1.6;

/** The subjects of words, with the strength of the evidence. */
export function subjectStrengths(words: string, hintWords: string): Map<Subject, number> {
  const strengths = new Map<Subject, number>();
  let first: Subject | null = null;
  let firstIndex = Infinity;
  let noise = 0;
  for (const subject of SUBJECTS) {
    const strongAt = subject.strong.indexIn(words);
    const strength =
      strongAt >= 0
        ? STRONG
        : subject.weak.test(words)
          ? WEAK
          : subject.strong.test(hintWords)
            ? HINT
            : subject.weak.test(hintWords)
              ? HINT / 2
              : 0;
    if (subject.id === 'noise') noise = strength >= STRONG ? NOISE : strength >= WEAK ? NOISE / 4 : 0;
    if (subject.id === 'noise' && noise === NOISE) strengths.set(subject, 0);
    if (strength === 0 || subject.id === 'noise') continue;
    strengths.set(subject, strength >= STRONG ? strength + (SPECIFIC[subject.id] ?? 0) : strength);
    if (strongAt >= 0 && strongAt < firstIndex) [first, firstIndex] = [subject, strongAt];
  }
  if (first !== null) strengths.set(first, (strengths.get(first) ?? 0) + FIRST_NAMED);
  for (const [subject, strength] of strengths) strengths.set(subject, Math.max(0, strength - noise));
  return strengths;
}

/**
 * The subject of a line, given the device that wrote it: if the line names none, the device counts; otherwise the
 * device only confirms it.
 */
export function withSource(said: Map<Subject, number>, source: string, words: string): Map<Subject, number> {
  if (source === '') return said;
  const own = subjectStrengths(source, '');
  const isSaid = [...said].some(([{ id }, strength]) => id !== 'noise' && strength >= STRONG - NOISE);
  const moves = saysMotion(words);
  const strengths = new Map(said);
  for (const [subject, strength] of own) {
    const before = said.get(subject);
    if (subject.id === 'noise') {
      strengths.set(subject, 0);
      for (const [other, value] of said) strengths.set(other, Math.max(0, value - NOISE));
    } else if (before !== undefined)
      strengths.set(subject, Math.max(before + HINT / 2, subject.id === 'cooler' ? strength : 0));
    else if (strength < STRONG) strengths.set(subject, moves && !isSaid ? WEAK : HINT / 2);
    // A cooler states setpoint and actual temperature without an outcome.
    else if (subject.id === 'cooler') strengths.set(subject, strength);
    else strengths.set(subject, isSaid ? BESIDE : moves ? FROM_SOURCE : HINT);
  }
  return strengths;
}
