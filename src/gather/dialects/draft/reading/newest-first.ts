import { dateIn, type HeadLine } from '../time/base-lines.js';
import type { Reading } from './reading.js';

/** Minimum fraction of non-zero steps from line to line that go back, and their minimum number. */
const BACK = 0.8;
const MIN_STEPS = 10;
/** Across midnight a time of day jumps the other way. */
const HALF_DAY_MS = 43_200_000;

/** For a log read from its end: minimum fractions of stamped lines, and of steps that go forward. */
const COVERED = 0.5;
const FORWARD = 0.9;

/**
 * The lines of a newest-first log in chronological order; `null` if it is not one.
 *
 * @param fromEnd reads the lines from the last to the first, for a log in which no time runs forward
 */
export function oldestFirst(
  lines: readonly HeadLine[],
  reading: Reading,
  fromEnd: () => Reading,
): readonly HeadLine[] | null {
  if (countsDown(reading)) return null;
  if (isNewestFirst(reading)) return turned(lines, reading);
  // A clock that runs backwards is not accepted, and a part of it may resemble a counter.
  if (reading.stamp !== null && reading.stamp.forward > 1 - BACK && !reading.stamp.pattern.includes('{elapsed'))
    return null;
  const { stamp, ...rest } = fromEnd();
  const runs =
    stamp !== null && stamp.coverage >= COVERED && stamp.forward >= FORWARD && !stamp.pattern.includes('{elapsed');
  return runs ? turned(lines, { stamp, ...rest }) : null;
}

/** Whether the lines count down to an instant that one of them states: their times are negative. */
function countsDown({ stamp, bases, messages, fieldLines }: Reading): boolean {
  const first = [...messages, ...fieldLines].find(({ atMs }) => !Number.isNaN(atMs));
  return bases.length > 0 && stamp?.pattern.includes('{elapsed') === true && (first?.atMs ?? 0) < 0;
}

/** Whether most steps from line to line go back. */
function isNewestFirst({ messages, fieldLines }: Reading): boolean {
  const times = [...messages, ...fieldLines].map(({ atMs }) => atMs).filter((atMs) => !Number.isNaN(atMs));
  const steps = times.flatMap((atMs, i) => (i === 0 ? [] : [atMs - (times[i - 1] ?? NaN)]));
  const back = steps.filter((ms) => (ms < 0 && ms > -HALF_DAY_MS) || ms > HALF_DAY_MS).length;
  const moving = steps.filter((ms) => ms !== 0).length;
  return back >= MIN_STEPS && back >= BACK * moving;
}

/**
 * Lines from the first instant on: everything above all stamps stays there, entries stay whole, and what a heading with
 * a date is above stays below it.
 */
function turned(lines: readonly HeadLine[], reading: Reading): readonly HeadLine[] {
  const stamped = new Set(
    [...reading.messages, ...reading.fieldLines].flatMap(({ line, atMs }) => (Number.isNaN(atMs) ? [] : [line])),
  );
  const first = lines.findIndex(({ number }) => stamped.has(number));
  const headings = dateHeadings(lines, stamped, first);
  const days = [
    { heading: lines.filter((_, i) => i === headings[0]), from: headings[0] === undefined ? first : headings[0] + 1 },
  ];
  for (const at of headings.slice(1)) days.push({ heading: lines.slice(at, at + 1), from: at + 1 });
  const head = lines.slice(0, headings[0] ?? first);
  return [
    ...head,
    ...days
      .map(({ heading, from }, i) => [...heading, ...reversed(lines.slice(from, headings[i + 1]), stamped)])
      .reverse()
      .flat(),
  ];
}

/** The lines of a day from the last to the first, with what follows a stamp behind it. */
function reversed(lines: readonly HeadLine[], stamped: ReadonlySet<number>): readonly HeadLine[] {
  const entries: HeadLine[][] = [];
  for (const line of lines) {
    const last = entries[entries.length - 1];
    if (last === undefined || stamped.has(line.number)) entries.push([line]);
    else last.push(line);
  }
  return entries.reverse().flat();
}

/** The headings with a date of a log that has one above its newest line: each is above the lines of its day. */
function dateHeadings(lines: readonly HeadLine[], stamped: ReadonlySet<number>, first: number): readonly number[] {
  const top = lines.slice(0, first).findLastIndex(({ text }) => dateIn(text) !== null);
  const form = dateIn(lines[top]?.text ?? '')?.when;
  if (form === undefined) return [];
  const others = lines.flatMap(({ text, number }, i) =>
    i > first && !stamped.has(number) && dateIn(text)?.when === form ? [i] : [],
  );
  return others.length === 0 ? [] : [top, ...others];
}
