import { basename } from 'node:path/posix';
import { baseInName, baseLinesIn, type HeadLine } from '../time/base-lines.js';
import { HEAD_LINES } from '../time/settled-stamp.js';
import { statedDays } from '../time/stated-days.js';
import type { StatedTimes } from '../time/stated-times.js';

/** The lines of a log, and what its head and its file's name state about their times. */
export interface LogLines extends StatedTimes {
  /** Its non-empty lines, with their numbers; or its entries, if records span several lines. */
  readonly lines: readonly HeadLine[];
  /** Name of its file, which may state a date or the base of elapsed times. */
  readonly name: string;
}

/** @param file path of the log */
export function logLines(lines: readonly HeadLine[], file: string): LogLines {
  const texts = lines.map(({ text }) => text);
  const name = basename(file);
  const hasBase = baseLinesIn(lines.slice(0, HEAD_LINES)).length > 0 || baseInName(name, texts) !== null;
  return { lines, name, hasBase, stated: statedDays(texts.slice(0, HEAD_LINES), file) };
}
