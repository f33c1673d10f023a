import { escapeBraces } from '../time/counting.js';
import type { HeadLine } from '../time/base-lines.js';

/** Lines without their line numbers, and what precedes the rest of each, as a time pattern. */
export interface Unnumbered {
  readonly lines: readonly HeadLine[];
  readonly prefix: string;
  /** The lines in the order of their numbers, each number once; `null` if they stand so. */
  readonly inOrder: readonly HeadLine[] | null;
}

const NUMBER = /^([^\p{L}\d\s]{0,2})(\d{1,9})(?:([\])}>|:]?)\s+|([/;,|~])(?=\S))/u;
const MIN_LINES = 20;
/** Minimum fraction of lines whose number is the previous one plus one. */
const IN_TURN = 0.97;
/** Minimum fraction of lines that have a number with digits, those of the time, behind it. */
const NUMBERED = 0.8;
/** Most of a step between numbers of lines that are sent, and may arrive late or twice; the fraction of such steps. */
const MOST_STEP = 12;
const NEAR = 0.95;
/** Minimum fraction of the numbers from the least to the greatest that occur, and of the lines that have their own. */
const WITHOUT_GAPS = 0.95;
const OF_ITS_OWN = 0.75;

/** The lines of a log that numbers them consecutively: such a counter is not a time. */
export function unnumbered(lines: readonly HeadLine[]): Unnumbered | null {
  const found = lines.map(({ text }) => NUMBER.exec(text));
  const first = found.find((one) => one !== null);
  if (first === undefined || first === null || lines.length < MIN_LINES) return null;
  const before = first[1] ?? '';
  const [behind, isGlued] = first[4] === undefined ? [first[3] ?? '', false] : [first[4], true];
  const own = found.map((one) => (one?.[1] === before && (isGlued ? one[4] : one[3]) === behind ? one : null));
  const inTurn = lines.filter(({ number }, i) => {
    const step = number - (lines[i - 1]?.number ?? NaN);
    return own[i] != null && (i === 0 || Number(own[i]?.[2]) - Number(found[i - 1]?.[2]) === step);
  });
  const isInTurn = !isGlued && inTurn.length >= IN_TURN * lines.length;
  if (!isInTurn && !areCounted(lines, own)) return null;
  const cut = lines.map((line, i) => ({ ...line, text: line.text.slice(own[i]?.[0].length ?? 0), isCut: true }));
  return {
    lines: cut,
    inOrder: isInTurn ? null : ordered(cut, (i) => Number(own[i]?.[2] ?? NaN)),
    prefix: `${escapeBraces(before)}{number}${escapeBraces(behind)}${isGlued ? '' : ' '}`,
  };
}

/** Whether numbers count lines, although some lines have none, stand out of order or twice. */
function areCounted(lines: readonly HeadLine[], found: readonly (RegExpExecArray | null)[]): boolean {
  const numbers = found.flatMap((one, i) =>
    // A tab separates cells: a running number in one is that of a row.
    one !== null && !one[0].endsWith('\t') && /^\d/.test(lines[i]?.text.slice(one[0].length) ?? '')
      ? [Number(one[2])]
      : [],
  );
  if (numbers.length < Math.max(MIN_LINES, NUMBERED * lines.length)) return false;
  const different = new Set(numbers);
  const range = numbers.reduce((most, one) => Math.max(most, one), 0) - numbers.reduce((a, b) => Math.min(a, b)) + 1;
  const near = numbers.filter((one, i) => i > 0 && Math.abs(one - (numbers[i - 1] ?? NaN)) <= MOST_STEP);
  return (
    different.size >= Math.max(WITHOUT_GAPS * range, OF_ITS_OWN * numbers.length) &&
    near.length >= NEAR * (numbers.length - 1)
  );
}

/** Lines by number, those with none behind the line above, and of several with a number the first. */
function ordered(lines: readonly HeadLine[], numberOf: (i: number) => number): readonly HeadLine[] | null {
  const seen = new Set<number>();
  let last = -Infinity;
  const placed = lines.flatMap((line, i) => {
    const number = numberOf(i);
    if (Number.isNaN(number)) return [{ line, place: last }];
    if (seen.has(number)) return [];
    seen.add(number);
    last = number;
    return [{ line, place: number }];
  });
  const sorted = placed.toSorted((a, b) => a.place - b.place).map(({ line }) => line);
  return sorted.length === lines.length && sorted.every((line, i) => line === lines[i]) ? null : sorted;
}
