import { basename } from 'node:path/posix';
import { newStamp, StampPattern } from '../../time/stamp.js';
import { findDate } from './date-shapes.js';
import { Remembered } from './remembered.js';

const DAY_MS = 86_400_000;
/** The year comes first, or the month is a name: such a date is unambiguous. */
const PLAIN = /^\{(?:era-)?year\}|\{month-name\}.*\{year\}|\{year\}.*\{month-name\}/;

/** The dates in some lines and the file name, whatever they are about, as UTC midnights in ms. */
export function statedDays(lines: readonly string[], file: string): number[] {
  return [...lines, basename(file)].flatMap((text) => days.of(text) ?? []);
}

const days = new Remembered((text: string): number | null => {
  const found = findDate(text);
  if (found === null || !PLAIN.test(found.pattern)) return null;
  const bytes = Buffer.from(text.slice(found.start, found.end));
  const stamp = newStamp();
  return new StampPattern(found.pattern).readAt(bytes, 0, bytes.length, stamp)
    ? Math.floor(stamp.ms / DAY_MS) * DAY_MS
    : null;
});
