import type { HeadLine } from '../time/base-lines.js';
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

/** Lines from the first instant on: everything above all stamps stays there, entries stay whole. */
function turned(lines: readonly HeadLine[], reading: Reading): readonly HeadLine[] {
  const stamped = new Set(
    [...reading.messages, ...reading.fieldLines].flatMap(({ line, atMs }) => (Number.isNaN(atMs) ? [] : [line])),
  );
  const first = lines.findIndex(({ number }) => stamped.has(number));
  const entries: HeadLine[][] = [];
  for (const line of lines.slice(first)) {
    const last = entries[entries.length - 1];
    if (last === undefined || stamped.has(line.number)) entries.push([line]);
    else last.push(line);
  }
  return [...lines.slice(0, first), ...entries.reverse().flat()];
}
