import { groupBy } from '../../../../model/index.js';
import { plainWords } from '../lexicon/plain-words.js';
import { wordList } from '../lexicon/word-list.js';
import { stateWord, takesTurns } from './binary-states.js';
import type { FieldLine } from './field-line.js';
import type { OfWork } from './works.js';

/** Minimum fraction of the records of a signal whose two fields hold opposite states. */
const OPPOSITE = 0.8;
const OF_ALL = 0.8;
const LEFT = wordList(
  'old previous before was from alt vorher bisher ancien avant antes anterior vecchio prima oud staré stare',
);

/**
 * Splits the records of one signal by the state that it turns to, `shutter;0;1`: fields that other signals fill with
 * numbers hold its states in turn. Records from an unknown state, as when a recorder starts, are apart.
 */
export function byTurn(
  lines: readonly FieldLine[],
  all: readonly FieldLine[],
  telling: readonly string[],
  timePaths: readonly string[],
): OfWork[] {
  const whole = [{ lines, works: [] }];
  // A field that only some signals have is called after what they do.
  const paths = [...(lines[0]?.fields.keys() ?? [])].filter(
    (path) =>
      !telling.includes(path) &&
      !timePaths.includes(path) &&
      all.filter(({ fields }) => fields.has(path)).length >= OF_ALL * all.length,
  );
  const wordsOf = (path: string): (string | null)[] => lines.map(({ fields }) => stateWord(fields.get(path) ?? ''));
  const turning = paths.filter((path) =>
    takesTurns(lines.flatMap(({ fields }) => (isKnown(fields.get(path)) ? [fields.get(path) ?? ''] : []))),
  );
  const [one, other] = turning;
  if (one === undefined || turning.length > 2) return whole;
  const opposite =
    other === undefined
      ? []
      : wordsOf(one).filter((word, i) => word !== null && wordsOf(other)[i] !== null && word !== wordsOf(other)[i]);
  if (other !== undefined && opposite.length < OPPOSITE * lines.length) return whole;
  const works = other === undefined ? [one] : LEFT.test(plainWords(other)) ? [other, one] : [one, other];
  return [...groupBy(lines, ({ fields }) => works.map((path) => fields.get(path) ?? '').join('\0')).values()].map(
    (own) => ({ lines: own, works }),
  );
}

/** A state that is not known is no state: `?`, `-`, nothing. */
function isKnown(value: string | undefined): boolean {
  return value !== undefined && /[\p{L}\d]/u.test(value);
}

/** Whether a state is the one that a record leaves: the field behind it holds the opposite, or it is not known. */
export function isLeft(value: string | undefined, next: string | undefined): boolean {
  if (value === undefined || value === '' || next === undefined || stateWord(next) === null) return false;
  return !isKnown(value) || (stateWord(value) !== null && stateWord(value) !== stateWord(next));
}
