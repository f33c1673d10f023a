import { flattenRecord } from '../records/flatten-record.js';
import type { FieldLine } from './kinds/field-kinds.js';
import type { Message } from './kinds/text-kinds.js';
import { splitRow } from './layout/csv-layout.js';
import { layoutOf, type Layout } from './layout/layout.js';
import type { HeadLine } from './time/date-source.js';
import { sectionIn } from './time/date-source.js';
import { RoughClock } from './time/rough-clock.js';
import { guessStamp, type StampGuess } from './time/stamp-guess.js';

/** Lines whose stamps are compared to find the time pattern. */
const STAMP_LINES = 500;
/** A share of lines without a stamp from which on they belong to the stamped lines above them. */
const ENTRY_SHARE = 0.15;

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
}

/** Takes a log apart. @param lines its lines that hold anything, with their numbers */
export function readingOf(lines: readonly HeadLine[]): Reading {
  const texts = lines.map(({ text }) => text);
  const layout = layoutOf(texts);
  const hasBase = sectionIn(lines) !== null;
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
  return textReading(lines, { kind: 'text' }, asElapsed(guessStamp(texts.slice(0, STAMP_LINES), hasBase), lines));
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
  const stamp =
    cellTime?.stamp ??
    guessStamp(
      rows.slice(0, STAMP_LINES).map(({ text }) => text),
      hasBase,
    );
  const timePaths = cellTime?.paths ?? [];
  const clock = stamp === null ? null : new RoughClock(stamp.pattern, stamp.anywhere);
  // Records without the time state things for others: the date, or what elapsed times count from.
  const timed = rows.filter(({ fields }) => timePaths.every((path) => fields.has(path)));
  const taken = new Set(timed.map(({ line }) => line));
  return {
    layout,
    stamp,
    timePaths,
    entries: false,
    messages: [],
    fieldLines: timed.map(({ fields, line, text }) => {
      const time = timePaths.length > 0 ? timePaths.map((path) => fields.get(path) ?? '').join(' ') : text;
      return { fields, line, atMs: clock?.read(time)?.atMs ?? NaN };
    }),
    unstamped: lines.filter(({ number }) => !taken.has(number)),
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

function textReading(lines: readonly HeadLine[], layout: Layout, stamp: StampGuess | null): Reading {
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
  };
}

/** `00:01:30` is a time of day, or, under a line that states when the log began, the time since then. */
function asElapsed(stamp: StampGuess | null, lines: readonly HeadLine[]): StampGuess | null {
  if (stamp === null || !/^[^{}]*\{hour\}:\{minute\}(:\{second\})?[^{}]*$/.test(stamp.pattern)) return stamp;
  const clock = new RoughClock(stamp.pattern, stamp.anywhere);
  const head = lines.slice(0, 60);
  const times = head.flatMap(({ text }) => clock.read(text)?.atMs ?? []);
  const base = sectionIn(head.filter(({ text }) => new RoughClock(stamp.pattern, stamp.anywhere).read(text) === null));
  if (base === null || !/hour|epoch/.test(base.base)) return stamp;
  // A plus in front, or a beginning near zero: nothing else counts from the stated time.
  const counts = /\+\s*$/.test(stamp.pattern.slice(0, stamp.pattern.indexOf('{hour}')));
  if (!counts && (times[0] ?? Infinity) > 120_000) return stamp;
  return { ...stamp, pattern: stamp.pattern.replace(/\{hour\}:\{minute\}(?::\{second\})?/, '{elapsed}') };
}
