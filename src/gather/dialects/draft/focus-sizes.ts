import type { Slot } from './kinds/kind.js';
import { numberIn } from './kinds/values.js';
import { wordList } from './lexicon/plain-words.js';

const BEFORE = wordList('before old was start* antes vorher alt avant prima voor przed pred 前');
const AFTER = wordList('after new now is end* best despues nachher jetzt neu apres dopo depois na po nu 后 後');
/** Numbers that are none of a size: how it went, how often, how good. */
const OTHER = wordList(
  'ok okay good success* done fine result* erfolg gelungen exito succes* tries steps points r2 fit',
);

/** Sizes of stars as logs state them, pixels or arcseconds. Common practice, no source. */
const SMALLEST = 0.3;
const LARGEST = 30;

/** Star sizes before and after a refocus. */
export interface FocusSizes {
  readonly before: Slot;
  readonly after: Slot;
}

/**
 * The two sizes that a line of a finished refocus states: of one unit, or told by words. The first is the older one,
 * unless words say otherwise.
 *
 * @param free its slots that have no name yet
 */
export function focusSizes(free: readonly Slot[]): FocusSizes | null {
  const [first, second] = free.filter(isSize);
  if (first === undefined || second === undefined) return null;
  if (second.isEarlier === true && first.isEarlier !== true) return { before: second, after: first };
  const isTold = told(first, BEFORE) || told(second, AFTER);
  const isTurned = told(first, AFTER) || told(second, BEFORE);
  const hasUnit = first.after !== '' && first.after === second.after;
  if (isTurned && !isTold) return { before: second, after: first };
  return isTold || hasUnit ? { before: first, after: second } : null;
}

/** Whether a slot may hold a size. Numbers without a decimal mark on every line are counts or switches. */
export function isSize(slot: Slot): boolean {
  if (slot.type !== 'number' || told(slot, OTHER)) return false;
  const values = slot.values.map(numberIn);
  const isMeasured = slot.values.some((value) => /\d[.,]\d/.test(value));
  return isMeasured && values.every((value) => value > SMALLEST && value < LARGEST);
}

function told({ before: [word = ''] }: Slot, words: RegExp): boolean {
  return words.test(word);
}
