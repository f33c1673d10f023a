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

/** What every line with a date and a time of day has: further down, such a line may tie counts to an instant. */
const DATED = /(?=.*\d[:h]\d{2}).*(?<!\d)(?:19|20)\d{2}(?!\d)/u;

/** @param file path of the log */
export function logLines(lines: readonly HeadLine[], file: string): LogLines {
  const texts = lines.map(({ text }) => text);
  const name = basename(file);
  const hasBase =
    lines.slice(0, HEAD_LINES).some((line) => baseLinesIn([line]).length > 0) ||
    baseInName(name, texts) !== null ||
    lines.slice(HEAD_LINES).some((line) => DATED.test(line.text) && baseLinesIn([line]).some(({ hasDay }) => hasDay));
  const heads = texts.slice(0, HEAD_LINES);
  return { lines, name, hasBase, stated: statedDays(heads, file), heads };
}
