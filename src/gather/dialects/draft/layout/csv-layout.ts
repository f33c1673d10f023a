import { parseCsv } from '../../../lines/csv-library.js';
import { BLANKS, setInColumns } from '../../blank-columns.js';
import { cutAt, FIXED } from '../../fixed-columns.js';
import { isNumber } from '../kinds/values.js';
import { fixedLayout } from './fixed-layout.js';
import type { CsvLayout } from './table-layout.js';

export type { CsvLayout } from './table-layout.js';

export const DELIMITERS = [';', '\t', '|', ','] as const;
/** A header row is among the first lines. */
const HEADER_WITHIN = 60;
const SHARE = 0.8;
const NEARLY_ALL = 0.95;
/** Minimum number of columns, and of rows, of a table whose rows omit cells. */
const MIN_NAMES = 4;
const MIN_WORDS = 2;
/** Maximum number of trailing cells that a blank-aligned row omits; minimum fraction of complete rows. */
const MOST_LEFT_OUT = 1;
const MOST_WHOLE = 0.5;
const LOOKED_AT = 2000;

/** A comment line. */
const COMMENTED = /^\s*(?:[#;%]|\/\/)/;

/** Fraction of rows in which every comma is within a number: sentences with decimal commas are not a table. */
const CUTTING = 0.5;

/** The table that most lines are rows of, or `null`. A table has a header row, or mostly numbers. */
export function csvLayout(lines: readonly string[]): CsvLayout | null {
  for (const delimiter of DELIMITERS) {
    const split = lines.slice(0, LOOKED_AT).map((line) => splitRow(line, delimiter));
    const width = commonWidth(split);
    if (width < 3) {
      // Commas separate sentences as well.
      const short = delimiter === ',' ? null : shortRows(split, delimiter);
      if (short !== null) return short;
      continue;
    }
    const headers = split
      .slice(0, HEADER_WITHIN)
      .flatMap((cells, i) => (cells.length === width && isHeader(named(cells)) ? [i] : []));
    // A comment may be the header row, but not if another header row follows: then it explains something.
    const header =
      headers.find((i) => !COMMENTED.test(lines[i] ?? '') && !(headers.length > 1 && explainsMarks(split[i] ?? []))) ??
      headers[0] ??
      -1;
    const rows = split.slice(header + 1).filter((cells) => cells.length === width);
    if (rows.length < SHARE * (split.length - header - 1) || rows.length < 3) continue;
    if (delimiter === ',' && rows.filter(cutsNumbers).length >= CUTTING * rows.length) continue;
    const names = split[header];
    if (header >= 0 && names !== undefined) return { delimiter, columns: names, headerIndex: header };
    const grouped = groupedNames(split.slice(0, HEADER_WITHIN), width);
    if (grouped !== null) return { delimiter, columns: grouped, headerIndex: -1 };
    const numeric = Array.from({ length: width }, (_, i) => rows.filter((cells) => isNumber(cells[i] ?? '')).length);
    if (numeric.filter((count) => count > SHARE * rows.length).length >= 2 && numeric.length <= 20)
      return { delimiter, columns: numeric.map((_, i) => `column${i + 1}`), headerIndex: -1 };
  }
  return blankLayout(lines.slice(0, LOOKED_AT));
}

/** Whether cells are marks with what they mean, `+ begins`, `× broken off`: a list of these is above a header row. */
function explainsMarks(cells: readonly string[]): boolean {
  return cells.filter((cell) => MARK.test(cell)).length >= MARKS * cells.length;
}
const MARK = /(?:^|[:：]\s)[^\p{L}\p{N}\s([#]\s?=?\s?\p{L}{2}/u;
const MARKS = 0.6;

/** A blank-aligned table under a header: its rows have a cell for each column, even if only a dash. */
function blankLayout(lines: readonly string[]): CsvLayout | null {
  const split = lines.map(setInColumns);
  const width = commonWidth(split, MOST_WHOLE);
  const heads = split.slice(0, HEADER_WITHIN);
  const whole = heads.findIndex((cells) => cells.length === width && isHeader(cells));
  // The last cell may be omitted if empty, as remarks usually are.
  const header =
    whole >= 0
      ? whole
      : heads.findIndex((cells, i) => cells.length === width + 1 && isHeader(cells) && standsOver(lines, i));
  const names = split[header];
  if (width < MIN_NAMES || names === undefined) return null;
  const rows = split.slice(header + 1).filter(({ length }) => length > 1);
  const fitting = rows.filter(({ length }) => length <= names.length && length >= names.length - MOST_LEFT_OUT);
  // Columns of numbers are samples, with lines of text in between.
  const inWords = names.filter((_, i) => {
    const filled = fitting.flatMap((cells) => cells[i] || []);
    return filled.filter((cell) => /\p{L}{2}/u.test(cell)).length > SHARE * filled.length;
  });
  if (rows.length < MIN_NAMES || fitting.length < NEARLY_ALL * rows.length || inWords.length < MIN_WORDS) return null;
  return touching(lines, header, names) ?? { delimiter: BLANKS, columns: names, headerIndex: header };
}

/**
 * The same table by the positions of its columns, where a cell of some row fills its column, a single blank from the
 * next; `null` if none does, or if other rows read so would differ.
 */
function touching(lines: readonly string[], header: number, names: readonly string[]): CsvLayout | null {
  const below = lines.slice(header + 1).map((line) => ({ line, cells: setInColumns(line) }));
  if (below.every(({ cells }) => cells.length < 2 || cells.length >= names.length)) return null;
  const fixed = fixedLayout(lines);
  const isFixed = fixed?.columns.join('\0') === names.join('\0');
  const starts = isFixed ? fixed.starts : startsOf(lines[header] ?? '');
  if (starts?.length !== names.length) return null;
  const filled = (cells: readonly string[]): number => cells.filter((cell) => cell !== '').length;
  const isSame = below.every(
    ({ line, cells }) => cells.length !== names.length || cutAt(line, starts).join('\0') === cells.join('\0'),
  );
  const isMore = below.some(
    ({ line, cells }) => cells.length > 1 && cells.length < names.length && filled(cutAt(line, starts)) > filled(cells),
  );
  return isSame && isMore ? { delimiter: FIXED, columns: names, headerIndex: header, starts } : null;
}

/** Whether the cells of the lines below a header begin where its names do. */
function standsOver(lines: readonly string[], header: number): boolean {
  const starts = new Set(startsOf(lines[header] ?? ''));
  const below = lines.slice(header + 1).map(startsOf);
  const rows = below.filter(({ length }) => length > 1);
  return rows.filter((row) => row.every((start) => starts.has(start))).length >= NEARLY_ALL * rows.length;
}

/** Start positions of the cells of a blank-aligned line. */
function startsOf(line: string): number[] {
  return [...line.matchAll(/(?<=^|\s{2}|\t)\S/g)].map(({ index }) => index);
}

/** Rows that omit trailing empty cells: under a header row, none wider than it, most nearly as wide. */
function shortRows(split: readonly (readonly string[])[], delimiter: string): CsvLayout | null {
  const header = split
    .slice(0, HEADER_WITHIN)
    .findIndex(
      (cells) =>
        cells.length >= MIN_NAMES &&
        isHeader(cells) &&
        cells.every((name) => !name.replace(IN_BRACKETS, '').includes(' ')),
    );
  const names = split[header];
  if (names === undefined) return null;
  const rows = split.slice(header + 1);
  const fitting = rows.filter(({ length }) => length >= 0.5 * names.length && length <= names.length);
  const isTable = rows.length >= MIN_NAMES && fitting.length >= NEARLY_ALL * rows.length;
  return isTable ? { delimiter, columns: names, headerIndex: header } : null;
}

/** Whether every comma of a row is within a number of a sentence: `RA +0,84" Dec -0,12"`. */
function cutsNumbers(cells: readonly string[]): boolean {
  return cells.every((cell, i) => {
    const before = cells[i - 1];
    return before === undefined || (/\d$/.test(before) && /^\d/.test(cell) && !isNumber(before) && !isNumber(cell));
  });
}

/** The cells of a row, unquoted. */
export function splitRow(line: string, delimiter: string): string[] {
  if (delimiter === BLANKS) return setInColumns(line);
  // Tabs at the end of a row delimit empty cells.
  const text = delimiter === '\t' ? line.replace(/^ +|[ \r]+$/g, '') : line.trim();
  const cells = text.includes('"') ? (parseCsv(text, delimiter)[0] ?? []) : text.split(delimiter);
  return cells.map((cell) => cell.trim());
}

/** The names in a header that begins with a bar, `| tube | filter |`, and ends with one, or with empty cells. */
function named(cells: readonly string[]): readonly string[] {
  const end = cells.findLastIndex((cell) => cell !== '') + 1;
  const isBetweenBars = cells[0] === '' && cells.at(-1) === '' && end === MIN_NAMES;
  return end <= MIN_NAMES && !isBetweenBars ? cells : cells.slice(cells[0] === '' ? 1 : 0, end);
}

/**
 * Column names made unique where several are equal, `start;end;start;end`: prefixed with the group title in the row
 * above, or else numbered. `null` if no row holds such names.
 */
function groupedNames(rows: readonly (readonly string[])[], width: number): string[] | null {
  for (const [i, cells] of rows.entries()) {
    const filled = cells.slice(0, cells.findLastIndex((cell) => cell !== '') + 1);
    if (cells.length !== width || filled.length < MIN_NAMES || new Set(filled).size === filled.length) continue;
    if (new Set(filled).size < MIN_NAMES || !isHeader([...new Set(filled)])) continue;
    let group = '';
    const groups = filled.map((_, k) => (group = rows[i - 1]?.[k] || group));
    const own = filled.map((name, k) => {
      if (filled.indexOf(name) === filled.lastIndexOf(name)) return name;
      const inGroup = `${groups[k] ?? ''} ${name}`.trim();
      const isOwn = groups.filter((one, nth) => filled[nth] === name && one === groups[k]).length === 1;
      return isOwn ? inGroup : `${name} ${filled.slice(0, k + 1).filter((one) => one === name).length}`;
    });
    if (isHeader(own)) return [...own, ...cells.slice(own.length)];
  }
  return null;
}

function commonWidth(rows: readonly (readonly string[])[], share = SHARE): number {
  const counts = new Map<number, number>();
  for (const { length } of rows) counts.set(length, (counts.get(length) ?? 0) + 1);
  const [width, count] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? [0, 0];
  return count >= share * rows.length ? width : 0;
}

/** The bracket after a name: the unit, or what is counted, such as days since a date. */
const IN_BRACKETS = /(?<=\p{L})\s*[[(][^\])]*[\])]$/u;

/** A time of day, or of an hour, by the signs of its units. */
const OF_MINUTES = /\d\s?(?:[h′'’m時时点點分분]|min)\s?\d{2}(?!\d)/u;

/** Column names: none missing, all different, no numbers or times, all short. */
export function isHeader(cells: readonly string[]): boolean {
  const names = cells.map((cell) => cell.trim());
  return (
    new Set(names).size === names.length &&
    names.every(
      (name) =>
        name !== '' &&
        name.length <= 40 &&
        /\p{L}|["″]|^[#№]$/u.test(name) &&
        !OF_MINUTES.test(name) &&
        !/\d{2}[:.]\d{2}|(?<!(?:since|from|seit|depuis|desde|od)[_ ])\d{4}/iu.test(name.replace(IN_BRACKETS, '')),
    )
  );
}
