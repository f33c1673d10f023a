import { countOf, increment } from '../../../../model/index.js';
import { escaped } from '../escaped.js';
import type { HeadLine } from '../time/base-lines.js';
import { DELIMITERS, isHeader, splitRow } from './csv-layout.js';
import type { FoundTable } from './several-tables.js';

/** A table whose rows take turns with those of others. */
export interface TypedTable extends FoundTable {
  readonly code: string;
  /** What its rows match. */
  readonly only: string;
}

/** The types of row of a log, and the numbers of the lines that name their fields. */
export interface TypedTables {
  readonly tables: readonly TypedTable[];
  readonly naming: ReadonlySet<number>;
}

/** Columns in which the type of a row may be, and the number of types. */
const PLACES = [0, 1, 2] as const;
const MIN_TYPES = 2;
const MOST_TYPES = 40;
/** Minimum fraction of lines that are rows of a type whose fields are named. */
const COVERED = 0.8;
/** Minimum fraction of a type's rows with a number in a column, for a row of names to be recognised there. */
const NUMBERED = 0.8;
const MIN_NAMES = 2;
/** More words, in a remark, are a sentence. */
const MOST_WORDS = 3;
/** How many rows of a type are compared with a line of names. */
const LOOKED_AT = 50;
const CODE = /^[#%@$*!<[]?(?:\p{L}[\p{L}\d_.+-]{0,23}|\d{1,3})[\]>:]?$/u;
/** What marks the code of a line of names: `#EXP`, `EXP:`, `H_EXP`, `EXP.fields`. */
const DECORATION =
  /^(?:[#;%!*@$<[/\s]+|(?:h|hdr|head|header|def|fields?|cols?|columns?|names?|format)[_:.\s-]+)|(?:[:#\]>]+|[_:.\s-](?:h|hdr|head|header|def|fields?|cols?|columns?|names?|format):?)$/giu;
const COMMENT = /^\s*(?:[#;%*!]+|\/\/|--+)\s*/;
/** The name of a column without one. */
const SENTENCE = 'text';
const NUMBER = /^[-+(<"]?\d/;

/** The names of a type's fields, and what else their line says of the type. */
interface Definition {
  readonly names: readonly string[];
  /** The names include that of the column with the type. */
  readonly isWhole: boolean;
  readonly words: string;
}

interface Split {
  readonly line: HeadLine;
  readonly cells: readonly string[];
}

/**
 * The rows of several types that take turns in a log, each type with fields of its own that a line names: `E` in a
 * first line such as `R,E,clock,train,edge`, `#E;clock;train;edge`, or `# E exposure: clock, train, edge`, or a row of
 * names before the first of the type. `null` if a log has none.
 *
 * @param isOne a header row names the fields of all rows: what remarks say besides is what they mean
 */
export function typedTables(lines: readonly HeadLine[], isOne: boolean): TypedTables | null {
  for (const delimiter of DELIMITERS) {
    const split = lines.map((line): Split => ({ line, cells: splitRow(line.text, delimiter) }));
    if (split.filter(({ cells }) => cells.length >= MIN_NAMES).length < COVERED * lines.length) continue;
    for (const place of PLACES) {
      const found = typedAt(split, delimiter, place, isOne);
      if (found !== null) return found;
    }
  }
  return null;
}

function typedAt(split: readonly Split[], delimiter: string, place: number, isOne: boolean): TypedTables | null {
  const counts = new Map<string, number>();
  for (const { cells } of split) increment(counts, cells[place] ?? '');
  const codes = new Set([...counts.keys()].filter((code) => CODE.test(code)));
  const used = [...codes].reduce((sum, code) => sum + countOf(counts, code), 0);
  if (codes.size < MIN_TYPES || used < COVERED * split.length || codes.size > 2 * MOST_TYPES) return null;
  const kept = new Map<string, Split[]>();
  for (const one of split) {
    const own = kept.get(one.cells[place] ?? '');
    if (own === undefined) kept.set(one.cells[place] ?? '', [one]);
    else if (own.length < LOOKED_AT) own.push(one);
  }
  // Lines with the mark of a line of names have nothing but names.
  const unmarked = new Set(split.flatMap(({ cells }) => (isNames(cells.slice(1)) ? [] : (cells[0] ?? ''))));
  const definitions = new Map<string, Definition>();
  const naming = new Set<number>();
  for (const one of split) {
    const found = definitionIn(one, codes, place, kept, unmarked, isOne);
    if (found === null) continue;
    naming.add(one.line.number);
    if (!definitions.has(found.code)) definitions.set(found.code, found);
  }
  const spoken = definitions.size < MIN_TYPES && isOne ? namedOnce(split, codes, place) : null;
  if (spoken !== null) definitions.clear();
  for (const [code, definition] of spoken?.definitions ?? []) definitions.set(code, definition);
  for (const line of spoken?.lines ?? []) naming.add(line);
  if (definitions.size < MIN_TYPES || definitions.size > MOST_TYPES) return null;
  const tables = [...definitions].flatMap(([code, definition]): TypedTable[] => {
    const rows = split.filter(({ line, cells }) => cells[place] === code && !naming.has(line.number));
    const columns = columnsOf(code, definition, rows, place);
    const fitting = rows.filter(({ cells }) => cells.length <= columns.length);
    if (fitting.length < COVERED * rows.length || rows.length === 0) return [];
    const only = onlyOf(code, delimiter, place);
    const heading = definition.words;
    const lines = fitting.map(({ line }) => line);
    return [{ delimiter, columns, headerIndex: 0, heading, below: null, code, only, rows: lines }];
  });
  const covered = tables.reduce((sum, { rows }) => sum + rows.length, 0);
  return tables.length < MIN_TYPES || covered < COVERED * (split.length - naming.size) ? null : { tables, naming };
}

/**
 * The types of a table with one row of names, where some rows have a sentence in place of the numbers of others:
 * `412.0 read +0.13 -0.07` and `417.0 event mount slewing`. `null` if it is no such table.
 */
function namedOnce(
  split: readonly Split[],
  codes: ReadonlySet<string>,
  place: number,
): { readonly lines: readonly number[]; readonly definitions: ReadonlyMap<string, Definition> } | null {
  const header = split.find(
    ({ line, cells }) =>
      cells.length > place + MIN_NAMES &&
      isNames(cells) &&
      split.every((other) => other.cells[place] !== cells[place] || other.line.text === line.text),
  );
  if (header === undefined) return null;
  const names = header.cells;
  const definitions = new Map<string, Definition>();
  for (const code of codes) {
    if (code === names[place]) continue;
    const rows = split.filter(({ cells }) => cells[place] === code);
    const share = (is: (row: Split) => boolean): boolean => rows.filter(is).length >= NUMBERED * rows.length;
    const isSentence = share(({ cells }) => cells.length === place + 2 && /\p{L}{2}/u.test(cells[place + 1] ?? ''));
    const isNumbers = share(({ cells }) =>
      cells.slice(place + 1, place + 1 + MIN_NAMES).every((cell) => NUMBER.test(cell)),
    );
    if (!isSentence && !isNumbers) return null;
    const own = isNumbers ? names : [...names.slice(0, place + 1), SENTENCE];
    definitions.set(code, { names: own, isWhole: true, words: '' });
  }
  const widths = new Set([...definitions.values()].map((one) => one.names.length));
  if (widths.size < MIN_TYPES) return null;
  const again = split.filter(({ line }) => line.text === header.line.text);
  return { lines: again.map(({ line }) => line.number), definitions };
}

/** The type whose fields a line names, `null` for a row. */
function definitionIn(
  { line, cells }: Split,
  codes: ReadonlySet<string>,
  place: number,
  kept: ReadonlyMap<string, readonly Split[]>,
  unmarked: ReadonlySet<string>,
  isOne: boolean,
): (Definition & { readonly code: string }) | null {
  const [first = '', second = '', ...others] = cells;
  const plain = first.replace(DECORATION, '').replace(DECORATION, '');
  if (codes.has(plain) && plain !== first && isNames(cells.slice(1)))
    return { code: plain, names: cells.slice(1), isWhole: false, words: '' };
  if (codes.has(second) && !NUMBER.test(first) && isNames(others) && !unmarked.has(first))
    return { code: second, names: others, isWhole: false, words: '' };
  const code = cells[place] ?? '';
  if (codes.has(code) && isNames(cells.filter((_, i) => i !== place)) && !isRow(cells, kept.get(code) ?? []))
    return { code, names: cells, isWhole: true, words: '' };
  return COMMENT.test(line.text) && !isOne ? explainedIn(line.text.replace(COMMENT, ''), codes) : null;
}

/** `E  exposure: clock, train, edge` and `E (clock; train; edge)` in a remark. */
function explainedIn(text: string, codes: ReadonlySet<string>): (Definition & { readonly code: string }) | null {
  const [, code = '', rest = ''] = /^["'`]?([\p{L}\d_.+-]+)["'`]?(?=[\s:=,;|(])\s*(.*)$/u.exec(text) ?? [];
  if (!codes.has(code)) return null;
  const [, words = '', listed = ''] = /^[=:,;|–—-]*\s*([^:=(,;|]*?)\s*[:=(→>,;|–—]+\s*(.*?)\)?\.?$/u.exec(rest) ?? [];
  const names = listed.split(/\s*[,;|\t]\s*/).map((name) => name.trim());
  const isAll = words !== '' && /^\s*[,;|]/.test(rest.slice(rest.indexOf(words) + words.length));
  const all = isAll ? [words, ...names] : names;
  const isShort = (name: string): boolean => !name.includes('=') && name.split(' ').length <= MOST_WORDS;
  return isNames(all) && all.length >= MIN_NAMES && all.every(isShort)
    ? { code, names: all, isWhole: false, words: isAll ? '' : words }
    : null;
}

function isNames(cells: readonly string[]): boolean {
  const filled = cells.slice(0, cells.findLastIndex((cell) => cell !== '') + 1);
  return filled.length > 0 && isHeader(filled) && filled.every((cell) => !NUMBER.test(cell));
}

/** Whether a line is one of the rows of a type: these have numbers where a line of names has words. */
function isRow(cells: readonly string[], rows: readonly Split[]): boolean {
  const isNumbered = (i: number): boolean =>
    rows.filter((row) => NUMBER.test(row.cells[i] ?? '')).length >= NUMBERED * (rows.length - 1);
  return rows.length < 2 || cells.every((cell, i) => NUMBER.test(cell) || !isNumbered(i));
}

/** The columns of a type's rows. */
function columnsOf(code: string, { names, isWhole }: Definition, rows: readonly Split[], place: number): string[] {
  const width = Math.max(0, ...rows.map(({ cells }) => cells.length));
  const type = names.includes('type') ? 'type of row' : 'type';
  if (isWhole) return unlike(names.map((name, i) => (i === place && name === code ? type : name)));
  if (place > 0 && names.length >= width) return unlike(names);
  // The columns before the type may have no names.
  const before = place > 0 && names.length + 1 < width ? ['time', 'date'].slice(0, place) : [];
  return unlike([...before, ...names.slice(0, place - before.length), type, ...names.slice(place - before.length)]);
}

function unlike(names: readonly string[]): string[] {
  return names.map((name, i) => (names.indexOf(name) === i ? name : `${name} ${i + 1}`));
}

function onlyOf(code: string, delimiter: string, place: number): string {
  const mark = delimiter === '\t' ? String.raw`\t` : escaped(delimiter);
  const cell = String.raw`\s*"?${escaped(code)}"?\s*`;
  return `^${`[^${delimiter === '\t' ? String.raw`\t` : delimiter}]*${mark}`.repeat(place)}${cell}(?:${mark}|$)`;
}
