import type { Slot } from './kinds/kind.js';
import { numberIn } from './kinds/values.js';
import { wordList, type WordList } from './lexicon/word-list.js';
import { FROM_TO, near } from './seconds-words.js';

const BEFORE = wordList('before old was start* antes vorher alt avant prima voor przed pred 前');
const AFTER = wordList('after new now is end* best despues nachher jetzt neu apres dopo depois na po nu 后 後');
const POSITION = wordList(
  'pos position posicion posizione posicao positie polozenie poloha stellung paso pasos step steps ' +
    'schritt* kroky krok at a en bei p 位置 위치',
);
const LEFT = wordList(
  'before from old was start* antes vorher von alt avant de prima da voor van przed z pred 前 から 从',
);
const TEMPERATURE = wordList('temp* t grad* degree* grados c tubus tubo tube temperatura 温度 온도 기온');
/** Field names only: after a number they belong to the next one. */
const DEGREES = wordList('degc deg_c celsius');
/** Also separates two sizes, but has another meaning between two filters. */
const ALSO_TO = /^(?:\/|do|到)$/u;
/** Numbers that are not sizes: result, count, quality. */
const OTHER = wordList(
  'ok okay good success* done fine result* erfolg gelungen exito succes* tries steps points r2 fit',
);

/** Plausible star sizes in logs, pixels or arcseconds. Common practice, no source. */
const SMALLEST = 0.3;
const LARGEST = 30;

/** Maximum ratio of two sizes of the same stars, and the minimum change of a worthwhile run. */
const LEAST_RATIO = 0.3;
const BETTER = 0.98;
/** Fraction of runs that make stars smaller: most do (common practice, no source). */
const MOSTLY = 0.8;

/** Star sizes before and after a refocus. */
export interface FocusSizes {
  readonly before: Slot;
  readonly after: Slot;
}

/**
 * The two sizes that a line about a finished refocus states: with the same unit, named by words, or one nearly always
 * somewhat smaller than the other. A refocus makes stars smaller; without that evidence words decide, and otherwise the
 * first is the older.
 *
 * @param measured its slots that hold neither times nor temperatures
 * @param isInVain the run failed: the stars need not be smaller
 */
export function focusSizes(measured: readonly Slot[], isInVain: boolean): FocusSizes | null {
  const sizes = measured.filter(isSize);
  const pairs = sizes.flatMap((first, i) => sizes.slice(i + 1).map((second) => [first, second] as const));
  const rated = pairs.map(([first, second]) => ({ first, second, weight: weightOf(first, second) }));
  const best = rated.filter(({ weight }) => weight > 0).sort((a, b) => b.weight - a.weight)[0];
  return best === undefined ? null : inTurn(best.first, best.second, isInVain);
}

/** How much two slots look like the sizes before and after: 0 for not at all. */
function weightOf(first: Slot, second: Slot): number {
  const ratios = ratiosOf(first, second);
  if (ratios.length === 0 || !ratios.every((ratio) => ratio > LEAST_RATIO && 1 / ratio > LEAST_RATIO)) return 0;
  const named = [first, second].filter((slot) => isPrecededBy(slot, BEFORE) || isPrecededBy(slot, AFTER)).length;
  const hasUnit = (first.after !== '' && first.after === second.after) || isLeft(first);
  const isEarlier = (first.isEarlier === true) !== (second.isEarlier === true);
  return 2 * named + Number(hasUnit) + Number(isEarlier) + Number(turns(ratios) !== null);
}

/** Which of two is the older one. */
function inTurn(first: Slot, second: Slot, isInVain: boolean): FocusSizes {
  const asGiven = { before: first, after: second };
  const turned = { before: second, after: first };
  const by = isInVain ? null : turns(ratiosOf(first, second));
  if (by !== null) return by ? turned : asGiven;
  if ((second.isEarlier === true) !== (first.isEarlier === true)) return second.isEarlier === true ? turned : asGiven;
  const isNamed = isPrecededBy(first, BEFORE) || isPrecededBy(second, AFTER);
  return !isNamed && (isPrecededBy(first, AFTER) || isPrecededBy(second, BEFORE)) ? turned : asGiven;
}

/** The second as a fraction of the first, line by line. */
function ratiosOf(first: Slot, second: Slot): number[] {
  return first.perLine
    .map((value, i) => numberIn(second.perLine[i]) / numberIn(value))
    .filter((ratio) => Number.isFinite(ratio));
}

/** Whether the first is the smaller one of nearly all lines (`true`), or the second (`false`); `null`: neither. */
function turns(ratios: readonly number[]): boolean | null {
  const share = (test: (ratio: number) => boolean): number => ratios.filter(test).length / ratios.length;
  if (share((ratio) => ratio < BETTER) >= MOSTLY) return false;
  return share((ratio) => 1 / ratio < BETTER) >= MOSTLY ? true : null;
}

/** Whether a slot may hold a size. Numbers without a decimal mark on every line are counts or flags. */
export function isSize(slot: Slot): boolean {
  if (slot.type !== 'number' || isPrecededBy(slot, OTHER)) return false;
  const values = slot.values.map(numberIn);
  const isMeasured = slot.values.some((value) => /\d[.,]\d/.test(value));
  return isMeasured && values.every((value) => value > SMALLEST && value < LARGEST);
}

/** Whether the text after a size says that it changed to another. */
function isLeft({ after }: Slot): boolean {
  return FROM_TO.test(after) || ALSO_TO.test(after);
}

function isPrecededBy({ before: [word = ''] }: Slot, words: WordList): boolean {
  return words.test(word);
}

/** Whether a number is a temperature, of the tube or of the air. */
export function isTemperature(slot: Slot): boolean {
  if (slot.type !== 'number') return false;
  return TEMPERATURE.test(slot.after) || slot.after === '°' || near(slot, TEMPERATURE, 1) || near(slot, DEGREES, 1);
}

/** Line and record numbers, which are counters. */
const COUNTED = wordList(
  'nr no num numero nummer number seq id n line row zeile ligne linea linha rij record job 番号',
);

/** The position that a focuser starts from: if a line states two, the first. */
export function positionBefore(slots: readonly Slot[]): Slot | null {
  const steps = positionsIn(slots);
  return steps.find((slot) => near(slot, LEFT)) ?? steps[0] ?? null;
}

/** The final position of a focuser: if a line states two, not the starting one. */
export function positionAfter(slots: readonly Slot[]): Slot | null {
  const found = positionsIn(slots);
  return found.find((slot) => !near(slot, LEFT)) ?? found[0] ?? null;
}

/** The slots that may be positions: those named so, if there are any. */
function positionsIn(slots: readonly Slot[]): readonly Slot[] {
  const steps = slots.filter(
    (slot) =>
      slot.type === 'number' &&
      // `focuser[953]` is the number of a process.
      slot.after !== ']' &&
      !near(slot, COUNTED, 1) &&
      slot.values.map(numberIn).every((value) => Number.isInteger(value) && value > 100),
  );
  const named = steps.filter((slot) => near(slot, POSITION));
  return named.length > 0 ? named : steps;
}
