import { newStamp, StampPattern } from '../time/stamp.js';
import { flattenRecord } from '../records/flatten-record.js';
import type { FieldLine } from './kinds/field-kinds.js';
import type { Message } from './kinds/text-kinds.js';
import { splitRow } from './layout/csv-layout.js';
import { layoutOf, type Layout } from './layout/layout.js';
import { chosenBases } from './time/base-choice.js';
import { baseLinesIn, type BaseLine, type HeadLine } from './time/base-lines.js';
import { countedTimes } from './time/counted-times.js';
import { RoughClock } from './time/rough-clock.js';
import { guessStamp, type StampGuess } from './time/stamp-guess.js';

/** Lines whose stamps are compared to find the time pattern. */
const STAMP_LINES = 500;
/** A share of lines without a stamp from which on they belong to the stamped lines above them. */
const ENTRY_SHARE = 0.15;
/** Lines at the beginning that may state what times count from; further on, as many lines without a stamp. */
const HEAD_LINES = 60;
const BASES = 400;

/** A log taken apart: its layout and stamps, and its messages or records with rough times. */
export interface Reading {
  readonly layout: Layout;
  readonly stamp: StampGuess | null;
  /** Cells that hold the time; empty where a stamp stands in the line. */
  readonly timePaths: readonly string[];
  readonly entries: boolean;
  readonly messages: readonly Message[];
  readonly fieldLines: readonly FieldLine[];
  /** The lines that hold no stamp, and stand outside entries. */
  readonly unstamped: readonly HeadLine[];
  /** All lines without a stamp, those of entries as well: headings of days stand among them. */
  readonly loose: readonly HeadLine[];
  /** The lines that state what the times count from, where they do, one a form. */
  readonly bases: readonly BaseLine[];
  /** Times of day and times that count fit equally well. */
  readonly doubtfulTimes: boolean;
}

/** Takes a log apart. @param lines its lines that hold anything, with their numbers */
export function readingOf(lines: readonly HeadLine[]): Reading {
  const texts = lines.map(({ text }) => text);
  const layout = layoutOf(texts);
  const hasBase = baseLinesIn(lines.slice(0, HEAD_LINES)).length > 0;
  if (layout.kind !== 'text') {
    const records = lines.flatMap(({ text, number }, i) => {
      const fields = fieldsOf(layout, text, i);
      return fields === null ? [] : [{ fields, line: number, text }];
    });
    const cellTime = timeInCells(
      records.map(({ fields }) => fields),
      hasBase,
    );
    if (cellTime !== null || layout.kind === 'records') return fieldReading(lines, layout, records, cellTime, hasBase);
  }
  return textReading(lines, { kind: 'text' }, guessStamp(texts.slice(0, STAMP_LINES), hasBase));
}

interface Stamped {
  readonly stamp: StampGuess | null;
  readonly bases: readonly BaseLine[];
  readonly doubtfulTimes: boolean;
}

/** The stamps as times of day or as times that count from an instant that some line states. */
function settled(
  stamp: StampGuess | null,
  texts: readonly { readonly text: string; readonly line: number }[],
  lines: readonly HeadLine[],
): Stamped {
  if (stamp === null || /\{(?:day|b|epoch|julian|mjd)/.test(stamp.pattern))
    return { stamp, bases: [], doubtfulTimes: false };
  const stamped = new Set(texts.map(({ line }) => line));
  const bases = baseLinesIn([
    ...lines.slice(0, HEAD_LINES).filter(({ number }) => stamped.has(number)),
    ...lines.filter(({ number }) => !stamped.has(number)).slice(0, BASES),
  ]).filter(({ hasDay, line }) => hasDay || !stamped.has(line.number));
  const { stamp: read, doubtful } = countedTimes(
    stamp,
    texts,
    bases.filter(({ hasDay }) => hasDay),
  );
  if (!read.pattern.includes('{elapsed')) return { stamp: read, bases: [], doubtfulTimes: doubtful };
  const pattern = new StampPattern(read.pattern);
  const counts = texts.flatMap(({ text, line }) => {
    const ms = countIn(pattern, read.anywhere, text);
    return ms === null ? [] : [{ line, ms }];
  });
  return { stamp: read, bases: chosenBases(bases, counts), doubtfulTimes: doubtful };
}

function countIn(pattern: StampPattern, anywhere: boolean, text: string): number | null {
  const bytes = Buffer.from(text.slice(0, 400));
  const stamp = newStamp();
  const found = anywhere ? pattern.find(bytes, 0, bytes.length, stamp) : pattern.readAt(bytes, 0, bytes.length, stamp);
  return found ? stamp.ms : null;
}

interface Row {
  readonly fields: ReadonlyMap<string, string>;
  readonly line: number;
  readonly text: string;
}

function fieldReading(
  lines: readonly HeadLine[],
  layout: Layout,
  rows: readonly Row[],
  cellTime: { readonly paths: readonly string[]; readonly stamp: StampGuess } | null,
  hasBase: boolean,
): Reading {
  const guess =
    cellTime?.stamp ??
    guessStamp(
      rows.slice(0, STAMP_LINES).map(({ text }) => text),
      hasBase,
    );
  const timePaths = cellTime?.paths ?? [];
  const timeOf = ({ fields, text }: Row): string =>
    timePaths.length > 0 ? timePaths.map((path) => fields.get(path) ?? '').join(' ') : text;
  // Records without the time state things for others: the date, or what elapsed times count from.
  const timed = rows.filter(({ fields }) => timePaths.every((path) => fields.has(path)));
  const taken = new Set(timed.map(({ line }) => line));
  const times = timed.map((row) => ({ text: timeOf(row), line: row.line }));
  const { stamp, bases, doubtfulTimes } = settled(guess, times, lines);
  const clock = stamp === null ? null : new RoughClock(stamp.pattern, stamp.anywhere);
  return {
    layout,
    stamp,
    timePaths,
    entries: false,
    messages: [],
    fieldLines: timed.map((row) => ({
      fields: row.fields,
      line: row.line,
      atMs: clock?.read(timeOf(row))?.atMs ?? NaN,
    })),
    unstamped: lines.filter(({ number }) => !taken.has(number)),
    loose: lines.filter(({ number }) => !taken.has(number)),
    bases,
    doubtfulTimes,
  };
}

function fieldsOf(layout: Layout, text: string, index: number): ReadonlyMap<string, string> | null {
  if (layout.kind === 'records') return flattenRecord(layout.form, text);
  if (layout.kind === 'text' || index <= layout.headerIndex) return null;
  const cells = splitRow(text, layout.delimiter);
  if (cells.length !== layout.columns.length) return null;
  return new Map(layout.columns.flatMap((name, i) => (cells[i] ? [[name, cells[i]] as const] : [])));
}

/** The field, or date and time of day in two fields, that tells the time best. */
function timeInCells(
  rows: readonly ReadonlyMap<string, string>[],
  hasBase: boolean,
): { readonly paths: readonly string[]; readonly stamp: StampGuess } | null {
  const sample = rows.slice(0, STAMP_LINES);
  const counts = new Map<string, number>();
  for (const row of sample) for (const path of row.keys()) counts.set(path, (counts.get(path) ?? 0) + 1);
  const common = [...counts].filter(([, count]) => count >= 0.8 * sample.length).map(([path]) => path);
  const guesses = common.flatMap((path) => {
    const stamp = guessStamp(
      sample.map((row) => row.get(path) ?? ''),
      hasBase,
    );
    return stamp === null || stamp.coverage < 0.7 || stamp.forward < 0.9 ? [] : [{ paths: [path], stamp }];
  });
  const pairs = guesses.flatMap(({ paths: [path = ''] }) =>
    common.flatMap((date) => {
      if (date === path || !/\d{2,4}[-/.]\d{1,2}[-/.]\d{2,4}/.test(sample[0]?.get(date) ?? '')) return [];
      const paths = [date, path];
      const stamp = guessStamp(
        sample.map((row) => paths.map((one) => row.get(one) ?? '').join(' ')),
        hasBase,
      );
      return stamp === null || stamp.coverage < 0.7 ? [] : [{ paths, stamp }];
    }),
  );
  return [...guesses, ...pairs].sort((a, b) => rank(b.stamp) - rank(a.stamp))[0] ?? null;
}

function rank({ pattern, coverage, forward, anywhere }: StampGuess): number {
  const worth = /year|epoch|julian|mjd/.test(pattern) ? 3 : pattern.includes('elapsed') ? 1 : 2;
  return worth + coverage * forward - (anywhere ? 0.5 : 0);
}

function textReading(lines: readonly HeadLine[], layout: Layout, guess: StampGuess | null): Reading {
  const probe = guess === null ? null : new RoughClock(guess.pattern, guess.anywhere);
  const times = lines
    .filter(({ text }) => probe !== null && probe.read(text) !== null)
    .map(({ text, number }) => ({ text, line: number }));
  const { stamp, bases, doubtfulTimes } = settled(guess, times, lines);
  const clock = stamp === null ? null : new RoughClock(stamp.pattern, stamp.anywhere);
  const read = lines.map(({ text, number }) => {
    const found = clock?.read(text) ?? null;
    return { text: text.trim(), number, message: found?.rest.trim() ?? null, atMs: found?.atMs ?? NaN };
  });
  const first = Math.max(
    0,
    read.findIndex(({ message }) => message !== null),
  );
  const unstamped = read.filter(({ message }) => message === null);
  const entries =
    clock !== null && read.slice(first).filter(({ message }) => message === null).length > lines.length * ENTRY_SHARE;
  const messages: { text: string; line: number; atMs: number }[] = [];
  for (const { text, number, message, atMs } of read) {
    const last = messages[messages.length - 1];
    if (entries && message === null && last !== undefined) last.text += `\n${text}`;
    else if (message !== null || clock === null) messages.push({ text: message ?? text, line: number, atMs });
    else messages.push({ text, line: number, atMs: NaN });
  }
  return {
    layout,
    stamp,
    timePaths: [],
    entries,
    messages,
    fieldLines: [],
    unstamped: entries ? unstamped.filter(({ number }) => number < (read[first]?.number ?? 0)) : unstamped,
    loose: unstamped,
    bases,
    doubtfulTimes,
  };
}
