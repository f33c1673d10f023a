import { isAboutZero } from './guiding-columns.js';
import { spacedPattern, gapsBetween, numberOf, numberPattern } from './guiding-numbers.js';
import { scaleLine } from './guiding-scale.js';
import type { BatchedGuiding } from './report.js';
import { baseLinesIn, type HeadLine } from './time/base-lines.js';
import { RoughClock } from './time/rough-clock.js';

/** Minimum number of samples, and of numbers per sample. */
const MIN_SAMPLES = 20;
const NUMBERS = { from: 3, to: 6 } as const;
const LOOKED_AT = 20_000;
/** How many lines above a batch may state what its times count from. */
const ABOVE = 6;
/** Tolerance for the end of a batch relative to the record that holds it, ms. */
const OVER_MS = 30_000;
/** Fraction of times that increase, within a line and from line to line. */
const FORWARD = 0.9;
const EPOCH_S = 1_000_000_000;
const EPOCH_MS = 100 * EPOCH_S;

const TOKEN =
  /(?<![\p{L}\d_.])(?:(?:[0-3]\d{2}\/)?\d{1,2}:\d{2}:\d{2}(?:[.,]\d+)?|[-+\u2212]?\d+(?:[.,]\d+)?)(?![\p{L}\d_:]|[.]\d)/gu;

/** The pattern that reads the times of a counting log, and the seconds from its first line to its last. */
export interface OwnCount {
  readonly pattern: string;
  readonly seconds: number;
}

interface Numbers {
  readonly line: HeadLine;
  readonly index: number;
  /** Texts of the numbers, and the separators between them. */
  readonly texts: readonly string[];
  readonly gaps: readonly string[];
  /** Position of the first one. */
  readonly begin: number;
}

/**
 * Guiding samples without a line kind of their own: several per line, or rows of bare numbers inside records and
 * entries, the first number being a time. `null` if there are none.
 *
 * @param own how the log counts its lines, if it does
 */
export function batchedGuiding(
  lines: readonly HeadLine[],
  decimalComma: boolean,
  own: OwnCount | null = null,
): BatchedGuiding | null {
  const all = lines.slice(0, LOOKED_AT);
  const forms = new Map<string, { samples: number; rows: { numbers: Numbers; from: number }[]; gaps: string[] }>();
  all.forEach((line, index) => {
    const numbers = numbersIn(line, index);
    const unit = numbers === null ? null : unitOf(numbers);
    if (numbers === null || unit === null) return;
    const key = unit.gaps.join('\0');
    const form = forms.get(key) ?? { samples: 0, rows: [], gaps: unit.gaps };
    forms.set(key, form);
    form.samples += unit.count;
    for (let n = 0; n < unit.count; n++) form.rows.push({ numbers, from: unit.first + n * (unit.gaps.length + 1) });
  });
  const [best] = [...forms.values()].sort((a, b) => b.samples - a.samples);
  if (best === undefined || best.samples < MIN_SAMPLES) return null;
  const width = best.gaps.length + 1;
  const column = (k: number): string[] => best.rows.map(({ numbers, from }) => numbers.texts[from + k] ?? '');
  const columns = Array.from({ length: width }, (_, k) => column(k));
  const time = columns[0] ?? [];
  const errors = columns.flatMap((texts, k) => (k > 0 && isAboutZero(texts.map(numberOf)) ? [k] : []));
  const [ra, dec] = errors;
  if (ra === undefined || dec === undefined || !runsForward(time)) return null;
  const clock = time.every((text) => text.includes(':'));
  const withDay = time.every((text) => text.includes('/'));
  const counts = !clock && time.every((text) => Math.abs(numberOf(text)) < EPOCH_S);
  const when = patternOf(best.gaps, ra, dec, decimalComma);
  const heads = best.rows.map(({ numbers }) => numbers);
  const section = counts ? baseOf(heads, time.map(numberOf), all) : null;
  const asLog = section === null && own !== null && isOfLog(time.map(numberOf), own);
  if (counts && section === null && !asLog) return null;
  const scale = scaleLine(all.map(({ text }) => text));
  const times = scale === null ? '' : ' * scale';
  return {
    guiding: {
      when,
      each: true,
      ra: `ra${times}`,
      dec: `dec${times}`,
      scale: scale === null ? 'none' : { when: scale },
    },
    lines: new Set(heads.map(({ line }) => line.number)),
    caught: clock
      ? `${withDay ? '{day-of-year}/' : ''}{hour}:{minute}:{second}`
      : asLog
        ? own.pattern
        : counts
          ? '{elapsed}'
          : epochOf(time),
    section,
  };
}

/** Seconds or milliseconds since 1970. */
function epochOf(times: readonly string[]): string {
  return times.every((text) => numberOf(text) >= EPOCH_MS) ? '{epoch-ms}' : '{epoch}';
}

function numbersIn(line: HeadLine, index: number): Numbers | null {
  const found = [...line.text.slice(0, 20_000).matchAll(TOKEN)];
  const [first] = found;
  if (first === undefined || found.length < NUMBERS.from) return null;
  return {
    line,
    index,
    texts: found.map(([text]) => text),
    gaps: gapsBetween(line.text, found),
    begin: first.index,
  };
}

/**
 * Numbers that repeat with the same separators, or a line of bare numbers: the separators of one group, and how often
 * it occurs.
 */
function unitOf({ texts, gaps, line, begin }: Numbers): { gaps: string[]; count: number; first: number } | null {
  for (let width = NUMBERS.from; width <= NUMBERS.to; width++) {
    for (let first = 0; first < Math.min(8, texts.length - 3 * width + 1); first++) {
      let count = 1;
      const unit = gaps.slice(first, first + width - 1);
      const between = gaps[first + width - 1];
      const isSame = (at: number): boolean => gaps[at - 1] === between && unit.every((gap, k) => gaps[at + k] === gap);
      while (first + (count + 1) * width <= texts.length && isSame(first + count * width)) count++;
      if (count >= 3) return { gaps: unit, count, first };
    }
  }
  const isBare = !/\p{L}/u.test(line.text) && /^\s*[[({]?\s*$/.test(line.text.slice(0, begin));
  return isBare && texts.length <= NUMBERS.to ? { gaps: [...gaps], count: 1, first: 0 } : null;
}

function runsForward(times: readonly string[]): boolean {
  const values = times.map((text) =>
    text.includes(':')
      ? text
          .replace(/^\d+\//, '')
          .split(':')
          .reduce((sum, part) => sum * 60 + numberOf(part), 0)
      : numberOf(text),
  );
  const steps = values.slice(1).map((value, i) => value - (values[i] ?? NaN));
  return (
    values.every((value) => value >= 0) &&
    steps.filter((step) => step > 0).length >= FORWARD * Math.max(1, steps.length)
  );
}

function patternOf(gaps: readonly string[], ra: number, dec: number, decimalComma: boolean): string {
  const number = numberPattern(decimalComma);
  const group = (k: number): string =>
    k === 0 ? '(?<time>[\\d:.,/]*\\d)' : k === ra ? `(?<ra>${number})` : k === dec ? `(?<dec>${number})` : number;
  return gaps.reduce((pattern, gap, i) => `${pattern}${spacedPattern(gap)}${group(i + 1)}`, group(0));
}

/** Samples on the log's own counter cover its whole duration, and hardly exceed it. */
const OF_NIGHT = { from: 0.4, to: 1.1 } as const;

function isOfLog(times: readonly number[], { pattern, seconds }: OwnCount): boolean {
  const whole = /^\{elapsed\}$/.test(pattern);
  const lastS = times.at(-1) ?? NaN;
  return (
    whole && lastS - (times[0] ?? NaN) >= OF_NIGHT.from * seconds && lastS <= OF_NIGHT.to * seconds + OVER_MS / 1000
  );
}

/** The line that states what a batch counts from: the batch's own, or one just above. */
function baseOf(
  rows: readonly Numbers[],
  counts: readonly number[],
  lines: readonly HeadLine[],
): BatchedGuiding['section'] {
  const votes = new Map<string, { count: number; base: string }>();
  const starts = rows.flatMap(({ index }, i) => {
    const before = rows[i - 1]?.index;
    return before !== index && before !== index - 1 ? [i] : [];
  });
  starts.forEach((start, k) => {
    const row = rows[start];
    if (row === undefined) return;
    const above = lines.slice(Math.max(0, row.index - ABOVE), row.index).reverse();
    const own = { ...row.line, text: row.line.text.slice(0, row.begin) };
    const found = [own, ...above].flatMap((one) => baseLinesIn([one]).filter(({ hasDay }) => hasDay));
    const base = beginning(found, counts[(starts[k + 1] ?? rows.length) - 1] ?? NaN);
    if (base === undefined) return;
    const vote = votes.get(base.section.begin) ?? { count: 0, base: base.section.base };
    votes.set(base.section.begin, vote);
    vote.count++;
  });
  const [best] = [...votes].sort((a, b) => b[1].count - a[1].count);
  return best === undefined || best[1].count < 0.5 * starts.length ? null : { begin: best[0], base: best[1].base };
}

type Base = ReturnType<typeof baseLinesIn>[number];

/** The closest of the instants, unless that is the end of the batch and another is its beginning. */
function beginning(bases: readonly Base[], lastS: number): Base | undefined {
  const [nearest, ...others] = bases;
  if (nearest === undefined) return undefined;
  const endMs = instantOf(nearest);
  return (
    others.find((one) => {
      const overMs = endMs - instantOf(one) - lastS * 1000;
      return overMs > -1000 && overMs < OVER_MS;
    }) ?? nearest
  );
}

function instantOf({ line, stamp, section }: Base): number {
  const text = line.text.slice(stamp.start, stamp.end);
  return new RoughClock(section.base, 'anywhere').read(text)?.atMs ?? NaN;
}
