import type { BaseSection, LineSection } from '../report.js';
import { findDate, findYearless } from './date-shapes.js';
import type { FoundStamp } from './shape.js';
import { stampsIn } from './stamp-shapes.js';
import { isWeekday } from './weekdays.js';

/** An unstamped line, or the beginning of the log. */
export interface HeadLine {
  readonly text: string;
  readonly number: number;
  /** The text before it was truncated. */
  readonly isCut?: boolean;
}

/** A line that may state the base of other lines' times. */
export interface BaseLine {
  readonly line: HeadLine;
  readonly stamp: FoundStamp;
  readonly section: BaseSection;
  /** It also states the date; otherwise the date is elsewhere. */
  readonly hasDay: boolean;
  /** It states only the date: counters may begin at its midnight. */
  readonly isMidnight: boolean;
}

/** Year, month and day are present, or an equivalent count. */
const WITH_DAY = /\{(?:era-)?year2?\}|\{c\}|\{week-date|\{serial-day|\{epoch|\{julian|\{mjd/;
const OF_DAY_ALONE = /^(?!.*\{(?:day|a|month)).*\{hour/;

/** The stamps of these lines that hold a date and a time of day, or an epoch, with or without words. */
export function baseLinesIn(lines: readonly HeadLine[]): (BaseLine & { readonly section: LineSection })[] {
  return lines.flatMap((line) => {
    const stamps = stampsIn(line.text);
    const full = longest(stamps.filter(({ pattern }) => WITH_DAY.test(pattern)));
    const stamp = full ?? longest(stamps.filter(({ pattern }) => OF_DAY_ALONE.test(pattern)));
    if (stamp === undefined) return wholeDaysIn(line) ?? midnightIn(line);
    return [
      {
        line,
        stamp,
        hasDay: full !== undefined,
        isMidnight: false,
        section: {
          begin: `${lead(line.text, stamp.start, line.isCut)}(?<time>${form(line.text.slice(stamp.start, stamp.end))})`,
          base: ordered(stamp.pattern, line.text.slice(stamp.start, stamp.end)),
        },
      },
    ];
  });
}

/** Julian days without a fraction that the counts of a log are to be added to: `JD - 2461000`. */
const WHOLE_DAYS = /(?<![\d.,])24[5-7]\d{4}(?:[.,][05])?(?![\d.,]*\d)/;
const JULIAN = /(?<!\p{L})(?:jd|hjd|bjd|jul)|юлиан|юліан|ιουλιαν|儒略|ユリウス|율리우스/iu;

/** Whether counts are the days since such a day. */
export function isWholeDay({ stamp, line }: BaseLine): boolean {
  return stamp.pattern === '{julian}' && !/[.,]\d{2}/.test(line.text.slice(stamp.start, stamp.end));
}

/** A line that states such a day. */
function wholeDaysIn(line: HeadLine): (BaseLine & { readonly section: LineSection })[] | null {
  const match = WHOLE_DAYS.exec(line.text);
  if (match === null || !JULIAN.test(line.text)) return null;
  const stamp = { start: match.index, end: match.index + match[0].length, pattern: '{julian}' };
  const begin = `${lead(line.text, stamp.start, line.isCut)}(?<time>${form(match[0])})`;
  return [{ line, stamp, hasDay: true, isMidnight: false, section: { begin, base: '{julian}' } }];
}

/** A line that states a date without a time. */
function midnightIn(line: HeadLine): (BaseLine & { readonly section: LineSection })[] {
  const date = findDate(line.text);
  if (date === null || date.pattern.includes('{number}')) return [];
  return [
    {
      line,
      stamp: date,
      hasDay: true,
      isMidnight: true,
      section: {
        begin: `${lead(line.text, date.start, line.isCut)}(?<time>${form(line.text.slice(date.start, date.end))})`,
        base: date.pattern,
      },
    },
  ];
}

/**
 * Counts at the beginnings of lines from the afternoon on, if they were seconds of a day; the minimum fraction of them.
 */
const OF_DAY_SECONDS = /^\W{0,3}(\d{5,6})(?:[.,]\d+)?(?=\W)/;
const OF_DAY_MS = /^\W{0,3}(\d{8})(?=\W)/;
const SECONDS = { from: 54_000, to: 130_000 } as const;
const LOOKED_AT = 50;
const MOST = 0.8;

/** Whether lines begin with counts that may be seconds since midnight. */
function countFromMidnight(texts: readonly string[]): boolean {
  const first = texts.slice(0, LOOKED_AT);
  const counts = first.map(
    (text) => Number(OF_DAY_SECONDS.exec(text)?.[1] ?? NaN) || Number(OF_DAY_MS.exec(text)?.[1]) / 1000,
  );
  return counts.filter((count) => count >= SECONDS.from && count < SECONDS.to).length >= MOST * first.length;
}

/** The instant in a file name, `null` if there is none: a date alone counts if lines count from its midnight. */
export function baseInName(name: string, texts: readonly string[]): BaseLine | null {
  const [base] = baseLinesIn([{ text: name, number: 0 }]);
  if (base === undefined || !base.hasDay || (base.isMidnight && !countFromMidnight(texts))) return null;
  return { ...base, section: { file: base.section.base } };
}

/** Of several readings of a text the most complete. */
function longest(stamps: readonly FoundStamp[]): FoundStamp | undefined {
  return [...stamps].sort((a, b) => b.end - b.start - (a.end - a.start))[0];
}

/** A specific pattern for a date or time: digits, names of months and days, and the separators. */
export function form(text: string): string {
  return text
    .trim()
    .replace(/[\\^$.*+?()[\]{}|]/g, '\\$&')
    .replace(/(?<=\d(?:\\.)?[\s/-]?)[IVX]{1,4}(?=(?:\\.|[\s/-])\d)/g, '[^\\s\\d.]+')
    .replace(/\d+/g, '\\d+')
    .replace(/\p{L}{3,}\.?/gu, (word) => (/^(?:utc|gmt)$/i.test(word) ? word : '[^\\s\\d]+'))
    .replace(/[^\S ]/g, '\\s');
}

/** The last words before a position in a line, as a pattern that identifies the line. */
export function lead(line: string, end: number, isCut = false): string {
  const whole = line.slice(0, end).trimStart();
  // An element's own beginning identifies it; the text before may be another line.
  const tag = whole.lastIndexOf('<');
  const before = tag > 0 ? whole.slice(tag) : whole;
  if (tag >= 0 && !isCut && ATTRIBUTES.test(before)) return elementLead(before, tag > 0);
  const words = before.split(/(?<=\s)/);
  const text = words.slice(-4).join('');
  const isWhole = words.length <= 4 && !isCut && tag <= 0;
  // The word directly before may be a day of the week; alone it identifies the line if nothing varies before it.
  const escaped = text
    .replace(/[\\$.*+?()[\]{}|]/g, '\\$&')
    .replace(/\d+/g, '\\d+')
    .replace(/(?<=[\s"'(])[\p{L}-]{3,},?(\s+)$/u, '\\S+$1')
    .replace(/^([\p{L}-]+)(?:\\?[.,])*(\s+)$/u, (own, day: string, blank: string) =>
      isWhole && isWeekday(day) ? `\\S+${blank}` : own,
    )
    .replace(/\s/g, '\\s');
  return isWhole ? `^${escaped}` : escaped;
}

/** An element with attributes up to a position in the value of one of them. */
const ATTRIBUTES = /^<[\p{L}_][\p{L}\d_.:-]*(?:\s+[\p{L}_][\p{L}\d_.:-]*="[^"]*")+\s+[\p{L}_][\p{L}\d_.:-]*="[^"]*$/u;

/** The same element with other values: a watch or a target has others in each. */
function elementLead(before: string, isInside: boolean): string {
  const escaped = before
    .split(/("[^"]*"(?=\s))/)
    .map((part, i) => (i % 2 === 1 ? '"[^"]*"' : part.replace(/[\\$.*+?()[\]{}|]/g, '\\$&').replace(/\d+/g, '\\d+')))
    .join('')
    .replace(/\s+/g, '\\s+');
  return `${isInside ? '' : '^'}${escaped}`;
}

/** Parts of a date with undetermined order: day first, unless one of them cannot be a month or a day. */
function ordered(pattern: string, text: string): string {
  const [a = 0, b = 0, c = 0] = (text.slice(dateStart(pattern)).match(/\d{1,2}/g) ?? []).map(Number);
  const put = (first: string, second: string, third: string): string =>
    pattern.replace('{a}', first).replace('{b}', second).replace('{c}', third);
  if (pattern.includes('{c}') && a >= 20 && c <= 31) return put('{year2}', '{month}', '{day}');
  return b > 12 && a <= 12 ? put('{month}', '{day}', '{year2}') : put('{day}', '{month}', '{year2}');
}

/** Position of the date in a text of the pattern: at its beginning, unless the time of day comes first. */
function dateStart(pattern: string): number {
  return pattern.indexOf('{hour') >= 0 && pattern.indexOf('{hour') < pattern.indexOf('{a}') ? 8 : 0;
}

/** The date in a line, as patterns of the line and of the date. */
export function dateIn(
  text: string,
  yearless = false,
  isCut = false,
): { readonly when: string; readonly pattern: string } | null {
  const date = yearless ? findYearless(text) : findDate(text);
  if (date === null) return null;
  return {
    when: `${lead(text, date.start, isCut)}(?<date>${form(text.slice(date.start, date.end))})`,
    pattern: date.pattern,
  };
}
