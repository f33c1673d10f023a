import { increment } from '../../../../model/index.js';
import { newStamp, StampPattern, type StampPlace } from '../../time/stamp.js';
import type { CountedLine } from './base-choice.js';
import type { HeadLine } from './base-lines.js';
import { isBorneOut } from './count-unit.js';
import type { StampGuess } from './guess.js';
import { inFrontOrAnywhere, shapesIn } from './stamp-candidates.js';
import type { TimeCells } from './time-cells.js';

/** Minimum fraction of lines or rows with such a time, and number of lines examined. */
const COVERED = 0.9;
const SHAPED = 500;
/**
 * Minimum fraction of intervals shorter than the previous one: half for random intervals, a third if they come in
 * threes.
 */
const FALLING = 0.2;
const NUMBER = /^\+?\d+(?:[.,]\d+)?$/;
const STAMP = { at: 'start', dayFirstAssumed: false, forward: 1, since: 'previous' } as const;

interface Row extends HeadLine {
  readonly fields: ReadonlyMap<string, string>;
}

/**
 * The time in cells; if there is none, or if its counter may be frame numbers, the field that states the interval since
 * the previous row: its sum has the duration of a night, and rows with a length are followed by another that much
 * later.
 */
export function orSinceInCells(cells: TimeCells | null, rows: readonly Row[]): TimeCells | null {
  if (cells !== null && !isDoubtfulCount(cells, rows)) return cells;
  return sinceInCells(rows) ?? cells;
}

function isDoubtfulCount({ paths: [path = ''], stamp: { pattern, at } }: TimeCells, rows: readonly Row[]): boolean {
  return pattern.includes('{elapsed') && !isBorneOut(...countsIn(rows, pattern, at, (row) => row.fields.get(path)));
}

function sinceInCells(rows: readonly Row[]): TimeCells | null {
  const counts = new Map<string, number>();
  for (const { fields } of rows) for (const [path, value] of fields) if (NUMBER.test(value)) increment(counts, path);
  for (const [path, count] of counts) {
    if (count < COVERED * rows.length) continue;
    const timed = rows.filter(({ fields }) => NUMBER.test(fields.get(path) ?? ''));
    const steps = timed.map(({ fields, number }) => ({ line: number, ms: numberIn(fields.get(path)) * 1000 }));
    if (!isUpAndDown(steps) || !isBorneOut(summed(steps), timed)) continue;
    const stamp = { ...STAMP, pattern: '{elapsed}', coverage: count / rows.length };
    return { paths: [path], isFirst: false, stamp };
  }
  return null;
}

/** The same for the number before text lines: `+3.2 shutter open`. */
export function sinceInText(lines: readonly HeadLine[]): StampGuess | null {
  const texts = lines.slice(0, SHAPED).map(({ text }) => text);
  const candidates = shapesIn(texts, true).flatMap(([shape, place, around]) =>
    place === 'start' && shape === '{elapsed}' ? inFrontOrAnywhere(shape, around, texts) : [],
  );
  for (const { guess, proof } of candidates) {
    if (guess.at !== 'start' || proof.coverage < COVERED) continue;
    const [steps, timed] = countsIn(lines, guess.pattern, 'start', ({ text }) => text);
    if (isUpAndDown(steps) && isBorneOut(summed(steps), timed))
      return { ...STAMP, pattern: guess.pattern, coverage: proof.coverage };
  }
  return null;
}

/** The counts in lines, ms, and the lines without them. */
function countsIn<T extends HeadLine>(
  lines: readonly T[],
  source: string,
  at: StampPlace,
  textOf: (line: T) => string | undefined,
): readonly [counts: CountedLine[], lines: HeadLine[]] {
  const pattern = new StampPattern(source);
  const stamp = newStamp();
  const read: HeadLine[] = [];
  const counts = lines.flatMap((line): CountedLine[] => {
    const bytes = Buffer.from(textOf(line) ?? '');
    if (!pattern.readIn(at, bytes, 0, bytes.length, stamp)) return [];
    const isWhole = textOf(line) === line.text;
    read.push({ number: line.number, text: isWhole ? bytes.subarray(stamp.end).toString('utf8') : line.text });
    return [{ line: line.number, ms: stamp.ms }];
  });
  return [counts, read];
}

/**
 * Whether intervals of every length occur; a value that hardly ever decreases is relative to one moment for all lines.
 */
function isUpAndDown(steps: readonly CountedLine[]): boolean {
  const falls = steps.filter(({ ms }, i) => i > 0 && ms < (steps[i - 1]?.ms ?? ms)).length;
  return falls >= FALLING * (steps.length - 1);
}

/** Converts times since the previous line to times since the first. */
export function summed(steps: readonly CountedLine[]): CountedLine[] {
  let ms = 0;
  return steps.map((step) => {
    ms += step.ms;
    return { ...step, ms };
  });
}

function numberIn(text = ''): number {
  return Number(text.replace(',', '.'));
}
