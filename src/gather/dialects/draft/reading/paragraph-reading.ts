import { joinedBy } from '../layout/record-groups.js';
import type { HeadLine } from '../time/base-lines.js';
import type { StampGuess } from '../time/guess.js';
import { RoughClock } from '../time/rough-clock.js';
import type { Reading } from './reading.js';

/** An indented line continues the one above it. */
const START = String.raw`^\S`;
/** The same for lines indented with ideographic spaces, which RE2 does not treat as blanks. */
const START_WIDE = '^[^\\s\u3000]';
/** Minimum fraction of indented lines below the first stamp. */
const SET_IN = 0.15;
/** Maximum fraction of multi-line paragraphs whose first line lacks a stamp. */
const LATER_STAMP = 0.05;

/** Prose in paragraphs with all lines but the first indented and times anywhere; `null` if the log is not like this. */
export function paragraphsOf(
  lines: readonly HeadLine[],
  stamp: StampGuess | null,
): Pick<Reading, 'entries' | 'messages' | 'unstamped' | 'loose'> | null {
  if (stamp === null || stamp.at !== 'anywhere') return null;
  const setIn = lines.filter(({ text }) => /^\s/.test(text)).length;
  if (setIn < SET_IN * lines.length || setIn > 0.9 * lines.length) return null;
  const start = lines.some(({ text }) => text.startsWith('\u3000')) ? START_WIDE : START;
  const clock = new RoughClock(stamp.pattern, 'anywhere');
  const messages = joinedBy(lines, start).map(({ text, number }) => {
    // The reader takes the first stamp of a paragraph, and continues through all of them.
    const times = text.split('\n').map((line) => clock.read(line)?.atMs ?? NaN);
    const atMs = times.find((one) => !Number.isNaN(one)) ?? NaN;
    return { text: text.trim(), line: number, atMs, isLater: Number.isNaN(times[0] ?? NaN) && !Number.isNaN(atMs) };
  });
  if (messages.filter(({ isLater }) => isLater).length < LATER_STAMP * messages.length) return null;
  const loose = messages
    .filter(({ atMs }) => Number.isNaN(atMs))
    .map(({ text, line }) => ({ text: text.split('\n')[0] ?? '', number: line }));
  return { entries: { start }, messages, unstamped: loose, loose };
}
