import type { CsvLayout } from './table-layout.js';
import { FIXED } from '../../fixed-columns.js';

/** The header is among the first lines, possibly followed by a line of units. */
const HEAD_WITHIN = 40;
const MIN_TITLES = 4;
const LONGEST_TITLE = 24;
/** Minimum number of rows below it, and fraction of the lines below it that they are. */
const MIN_ROWS = 8;
const ARE_ROWS = 0.8;
const LOOKED_AT = 3000;
/** A character position that this few rows fill separates columns. */
const FEW = 0.01;
const RULE = /^[\s\-=_+|~*.·─━═]+$/u;

interface Word {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** Range of positions from the first that rows fill to the first that they leave free. */
interface Span {
  readonly start: number;
  readonly end: number;
}

/**
 * The columns of rows aligned below titles, each at its position, filled or not; `null` if no line is such a header.
 */
export function fixedLayout(lines: readonly string[]): CsvLayout | null {
  const head = lines.slice(0, HEAD_WITHIN).findIndex(isHead);
  const titles = wordsIn(lines[head] ?? '');
  if (head < 0) return null;
  const below = lines.slice(head + 1, head + 1 + LOOKED_AT).filter((line) => !RULE.test(line));
  const rows = below.filter((line) => /^\s*\S*\d/.test(line) && line.trimEnd().length > (titles.at(-2)?.start ?? 0));
  if (rows.length < MIN_ROWS || rows.length < ARE_ROWS * below.length || rows.some((line) => line.includes('\t')))
    return null;
  const spans = spansIn(rows);
  const named = nameSpans(spans, titles);
  if (named.length < MIN_TITLES || new Set(named.map(({ title }) => title)).size < named.length) return null;
  // A second line of titles holds the units.
  const units = wordsIn(isUnits(lines[head + 1]) ? (lines[head + 1] ?? '') : '');
  const columns = named.map(({ title, span }) => {
    const unit = units.find((word) => overlap(word, span) > 0 || nearest(word, spans) === span);
    return unit === undefined ? title : `${title} ${unit.text}`;
  });
  return {
    delimiter: FIXED,
    columns,
    headerIndex: isUnits(lines[head + 1]) ? head + 1 : head,
    starts: named.map(({ span }, i) => startOf(span, named[i - 1]?.span, rows)),
  };
}

/** Titles of words only, most of them separated by more than a blank. */
function isHead(line: string): boolean {
  const words = wordsIn(line);
  const apart = [...line.trim().matchAll(/\S {2,}\S/g)].length;
  return (
    words.length >= MIN_TITLES &&
    apart >= words.length / 3 &&
    apart >= 2 &&
    words.every(({ text }) => /^[([]?\p{L}/u.test(text) && text.length <= LONGEST_TITLE && !/\d{2}[:.]\d{2}/.test(text))
  );
}

/** A line of units in brackets, or of words as short as units. */
function isUnits(line = ''): boolean {
  const words = wordsIn(line);
  return words.length > 0 && words.every(({ text }) => /^[[(][^\])]{1,8}[\])]$/.test(text));
}

function wordsIn(line: string): Word[] {
  return [...line.matchAll(/\S+/g)].map(({ 0: text, index }) => ({ text, start: index, end: index + text.length }));
}

function spansIn(rows: readonly string[]): Span[] {
  const width = Math.max(...rows.map(({ length }) => length));
  const counts = new Uint32Array(width + 1);
  for (const row of rows) for (let i = 0; i < row.length; i++) if (row[i] !== ' ') counts[i] = (counts[i] ?? 0) + 1;
  const spans: Span[] = [];
  let start = -1;
  for (let i = 0; i <= width; i++) {
    const isFilled = (counts[i] ?? 0) > FEW * rows.length || (start >= 0 && isRare(counts, i, rows.length));
    if (isFilled && start < 0) start = i;
    if (!isFilled && start >= 0) {
      spans.push({ start, end: i });
      start = -1;
    }
  }
  return spans;
}

/** Maximum fill of a gap within a longer text. */
function isRare(counts: Uint32Array, i: number, rows: number): boolean {
  return (counts[i] ?? 0) > 0 && (counts[i + 1] ?? 0) > 0 && (counts[i] ?? 0) <= FEW * rows;
}

/** The columns with their titles: a column without a title of its own is part of the previous one. */
function nameSpans(spans: readonly Span[], titles: readonly Word[]): { title: string; span: Span }[] {
  const words = new Map<Span, string[]>();
  for (const title of titles) {
    const best = nearest(title, spans);
    if (best !== undefined) words.set(best, [...(words.get(best) ?? []), title.text]);
  }
  const named: { title: string; span: Span }[] = [];
  for (const span of spans) {
    const title = words.get(span)?.join(' ');
    const before = named.at(-1);
    if (title !== undefined) named.push({ title, span });
    else if (before !== undefined) named[named.length - 1] = { ...before, span: { ...before.span, end: span.end } };
  }
  return named;
}

/** The column below a word, or else the nearest. */
function nearest(word: Word, spans: readonly Span[]): Span | undefined {
  const away = (span: Span): number => (overlap(word, span) > 0 ? -overlap(word, span) : distance(word, span));
  return [...spans].sort((a, b) => away(a) - away(b))[0];
}

function overlap(word: Span, span: Span): number {
  return Math.min(word.end, span.end) - Math.max(word.start, span.start);
}

function distance(word: Span, span: Span): number {
  return Math.max(word.start - span.end, span.start - word.end);
}

/** Where columns are split: right-aligned numbers may be longer than those seen. */
function startOf(span: Span, before: Span | undefined, rows: readonly string[]): number {
  if (before === undefined) return 0;
  const ends = rows.filter((row) => (row[span.end - 1] ?? ' ') !== ' ' && (row[span.start] ?? ' ') === ' ').length;
  return ends > FEW * rows.length ? Math.min(before.end + 1, span.start) : span.start;
}
