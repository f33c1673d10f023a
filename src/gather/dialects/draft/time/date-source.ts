import { basename } from 'node:path/posix';
import { partition } from '../../../../model/index.js';
import type { StampKind } from '../../time/stamp.js';
import type { DateSource } from '../report.js';
import { dateIn, form, type HeadLine, lead } from './base-lines.js';
import { escapeBraces } from './counting.js';
import { findDate } from './date-shapes.js';
import { instant, type NightEvidence } from './night-evidence.js';
import { isOfBothDays } from './night-dates.js';
import { isOtherDate } from './other-date.js';
import { type Clock, jumpsUnder } from './date-jumps.js';
import { isNearNight, NEAR_NIGHT_MS } from '../../time/near-night.js';
import { swappedOrder } from '../../time/swapped-order.js';

export type { HeadLine };

/** Number of unstamped lines that may state the date. */
const HEAD_LINES = 60;
/** Number of stamped lines that may state it, and the maximum number of days in a log. */
const STAMPED_LINES = 12;
const YEAR_LINES = 8;
const MOST_DAYS = 4;

/** Where a log may state the date of stamps without one. */
export interface DatePlaces {
  /** Lines without a stamp. */
  readonly unstamped: readonly HeadLine[];
  /** The text of stamped lines without the stamp. */
  readonly stamped: readonly HeadLine[];
  /** Whole lines, some of which may have the date before their time of day. */
  readonly lines: readonly HeadLine[];
  /** The titles of blocks that are records. */
  readonly titles: readonly HeadLine[];
  /** The number of the last line with a stamp. */
  readonly last: number;
  /** Other evidence of the night: of several dates at the head the one that matches it is used. */
  readonly known: NightEvidence;
  /** The times of stamped lines, ms of their own clock. */
  readonly clocks?: readonly Clock[];
}

/** Where the date comes from in a log with undated stamps: a header line, the file name, or the night. */
export function dateSource(
  kind: StampKind | null,
  file: string,
  { unstamped: all, stamped, lines, titles, last, known, clocks = [] }: DatePlaces,
): DateSource {
  if (kind !== 'time' && kind !== 'month-day-time') return { from: 'line' };
  const unstamped = all.filter(({ text, number }) => number < last || kind !== 'time' || !OF_END.test(text));
  const before = kind === 'time' ? (dateBeforeTime(lines) ?? dateInTitles(titles)) : null;
  if (before !== null) return before;
  const name = basename(file);
  const named = findDate(name);
  const statements = inStep(statedIn(unstamped, false), kind === 'time' ? clocks : [], unstamped);
  const isOfNight = nearNight(known, named === null ? NaN : instant(named.pattern, name));
  const [stated = null] = [
    ...statements.filter(isOfNight),
    ...newestFirst(statements.filter(({ isOther }) => !isOther)),
    ...(named === null ? statements : []),
  ];
  const onStamped = statedBeside(stamped);
  const year =
    kind === 'month-day-time'
      ? statedYear(name, [...unstamped.slice(0, HEAD_LINES), ...stamped.slice(0, YEAR_LINES)])
      : null;
  // A date that is probably the program's is used only if there is no other.
  if (stated !== null && !(stated.isOther && (onStamped !== null || year !== null))) return stated.source;
  if (onStamped !== null) return onStamped;
  const yearless = statedIn(unstamped, true)[0]?.source;
  // Date headings are better than a file name: they state the date of each line.
  if (yearless !== undefined && (named === null || !yearless.evening)) {
    const hint = yearHint(name, unstamped);
    if (hint !== null) return { ...yearless, year: hint };
  }
  if (named !== null) return { from: 'file', pattern: named.pattern };
  return year ?? { from: 'session' };
}

/** What the foot of a log says of its end, or of when it was written: the date may be that of the morning. */
const OF_END =
  /(?<!\p{L})(?:end(?:ed|s)?|clos\p{L}*|finish\p{L}*|stopp?\p{L}*|sav(?:ed|ing)|writ\p{L}*|ende|beend\p{L}*|fin|final\p{L}*|fine|fim|einde|konie?c\p{L}*|zako\p{L}*|ukon\p{L}*|cerr\p{L}*|termin\p{L}*|chius\p{L}*|fech\p{L}*)(?!\p{L})|終|结束|結束|\d{1,2}[:h]\d{2}/iu;

/**
 * The date before the time of day on most lines of their own, where the lines below them have only the time, as in a
 * block of samples below its introductory line.
 */
function dateBeforeTime(lines: readonly HeadLine[]): (DateSource & { from: 'header' }) | null {
  const first = lines.find(({ text }) => DATE_BEFORE_TIME.test(text));
  const date = first === undefined ? null : dateIn(DATE_BEFORE_TIME.exec(first.text)?.[1] ?? '');
  if (first === undefined || date === null) return null;
  const when = `${date.when}[ T]\\d{1,2}:\\d\\d`;
  const dated = new RegExp(when, 'u');
  const all = lines.filter(({ text }) => dated.test(text));
  if (all.length < MIN_DATED) return null;
  return { from: 'header', when, pattern: date.pattern, line: first.number, evening: false };
}

/** The date that block titles state, among other text. */
function dateInTitles(titles: readonly HeadLine[]): (DateSource & { from: 'header' }) | null {
  const [first, ...others] = titles.filter(({ text }) => findDate(text) !== null);
  const date = first === undefined ? null : findDate(first.text);
  if (first === undefined || date === null) return null;
  const same = others.filter(({ text }) => findDate(text)?.pattern === date.pattern);
  if (same.length < MIN_DATED || same.length < 0.5 * titles.length) return null;
  const when = `^\\S.*?(?<date>${form(first.text.slice(date.start, date.end))})`;
  return { from: 'header', when, pattern: date.pattern, line: first.number, evening: false };
}

const DATE_BEFORE_TIME = /^\W{0,2}(\d{1,4}[/.-]\d{1,2}[/.-]\d{1,4})[ T]\d{1,2}:\d\d/;
const MIN_DATED = 5;

/** The year alone, for stamps with month and day: on a header line, or in the file name. */
function statedYear(name: string, lines: readonly HeadLine[]): DateSource | null {
  for (const { text, number } of [...lines].sort((a, b) => a.number - b.number)) {
    const match = YEAR.exec(text);
    if (match === null || isOtherDate(text)) continue;
    const when = `${unanchored(lead(text, match.index))}(?<date>\\d{4})`;
    return { from: 'header', when, pattern: '{year}', line: number, evening: false };
  }
  const [, before] = /(?:^|(\D{1,3}))20[2-5]\d(?!\d)/.exec(name) ?? [];
  return before === undefined ? null : { from: 'file', pattern: `${escapeBraces(before)}{year}` };
}

/** A date on a stamped line: among the first, or repeated when the day is over. */
function statedBeside(lines: readonly HeadLine[]): (DateSource & { from: 'header' }) | null {
  for (const { text, number } of lines.slice(0, STAMPED_LINES)) {
    const date = isWordy(text) && !isOtherDate(text) ? dateIn(text) : null;
    if (date === null) continue;
    const same = lines.filter((line) => isWordy(line.text) && dateIn(line.text)?.when === date.when);
    // A text in many lines is not a statement about the night.
    if (same.length > MOST_DAYS) continue;
    return {
      from: 'header',
      when: unanchored(date.when),
      pattern: date.pattern,
      line: number,
      evening: same.length === 1 || isOfBothDays(date.pattern),
    };
  }
  return null;
}

/** Words and a date: no file name, and no other number. */
function isWordy(text: string): boolean {
  return (
    text.length < 120 &&
    !/\.\w{2,5}\b(?!\d)|[/\\]\p{L}|_\d|\d_/u.test(text.replace(/\d+([/.-])\d+\1\d+/g, '')) &&
    findDate(text) !== null
  );
}

/** The line's beginning may be the text before its stamp. */
function unanchored(when: string): string {
  return when.replace(/^\^/, '');
}

/** A date at the head, and the probable subject of its line. */
interface Statement {
  readonly source: DateSource & { from: 'header' };
  /** The night under one order of day and month, and under the other, UTC ms. */
  readonly instants: readonly number[];
  /** Its line mentions the program, or the Sun. */
  readonly isOther: boolean;
}

function statedIn(unstamped: readonly HeadLine[], yearless: boolean): Statement[] {
  return unstamped.slice(0, HEAD_LINES).flatMap(({ text, number, isCut }) => {
    const date = dateIn(text, yearless, isCut);
    if (date === null || (!yearless && Number.isNaN(instant(date.pattern, text)))) return [];
    // A date repeated during the night is the day's; one at the head is the evening's.
    const again = unstamped.filter(
      (line) => line.number > number && dateIn(line.text, yearless, line.isCut)?.when === date.when,
    );
    const orders = [date.pattern, swappedOrder(date.pattern) ?? date.pattern];
    return [
      {
        source: { from: 'header', ...date, line: number, evening: again.length === 0 || isOfBothDays(date.pattern) },
        instants: yearless ? [] : orders.map((pattern) => instant(pattern, text)),
        isOther: isOtherDate(text),
      },
    ];
  });
}

/** The statements whose dates, if repeated, do not let the clock jump by a day where those of others do not. */
function inStep(statements: Statement[], clocks: readonly Clock[], unstamped: readonly HeadLine[]): Statement[] {
  const repeated = statements.filter(({ source: { evening } }) => !evening);
  if (new Set(repeated.map(({ source: { when } }) => when)).size < 2) return statements;
  const jumping = new Set(
    repeated.filter(({ source }) => jumpsUnder(source, clocks, unstamped) > 0).map(({ source: { when } }) => when),
  );
  const steady = statements.filter(({ source: { when } }) => !jumping.has(when));
  return repeated.some(({ source: { when } }) => !jumping.has(when)) ? steady : statements;
}

/** Whether a statement matches the night known from frames, the name or the file's modification time. */
function nearNight({ days, writtenMs }: NightEvidence, namedMs: number): (statement: Statement) => boolean {
  return ({ instants }) => [...days, namedMs, writtenMs].some((dayMs) => instants.some((ms) => isNearNight(ms, dayMs)));
}

/** Tonight's log may mention earlier products or measurements: of widely separated dates the latest is tonight's. */
function newestFirst(statements: readonly Statement[]): Statement[] {
  // Three numbers of two digits may be a time of day.
  const [short, plain] = partition(statements, ({ source: { pattern } }) => pattern.includes('{year2}'));
  return [...latestFirst(plain), ...latestFirst(short)];
}

function latestFirst(statements: readonly Statement[]): Statement[] {
  const known = statements.flatMap(({ instants: [ms = NaN] }) => (Number.isNaN(ms) ? [] : [ms]));
  const latest = Math.max(...known);
  const isOld = ({ instants: [ms = NaN] }: Statement): boolean => latest - ms > NEAR_NIGHT_MS;
  return [...statements.filter((one) => !isOld(one)), ...statements.filter(isOld)];
}

const YEAR = /(?<![\d.,])20[2-5]\d(?!\d|[.,]\d)/;

/** The year in the file name or the head of the log. */
export function yearHint(name: string, head: readonly HeadLine[]): number | 'file' | null {
  if (/(?<!\d)20\d{2}/.test(name)) return 'file';
  for (const { text } of head.slice(0, HEAD_LINES)) {
    const year = isOtherDate(text) ? null : YEAR.exec(text);
    if (year !== null) return Number(year[0]);
  }
  return null;
}
