import { monthNumber } from '../../time/month-names.js';
import { increment } from '../../../../model/index.js';
import type { DateSource, DraftReport } from '../report.js';
import type { LogSample } from '../sample.js';
import { findDate } from '../time/date-shapes.js';
import type { StampGuess } from '../time/guess.js';
import { instant } from '../time/night-evidence.js';
import { isOtherDate } from '../time/other-date.js';
import { RoughClock } from '../time/rough-clock.js';

const DAY_MS = 86_400_000;
/** Lines at the head that may state a date. */
const HEAD_LINES = 60;
/** A text stands for its day if it is on this fraction of the day's lines, at least so many of them. */
const MOST = 0.9;
const MIN_LINES = 5;
/** A date that is written once a day is in the first lines of the day. */
const FIRST_LINES = 2;
const LONGEST = 40;
const MANY = 0.3;
/** Of a line: a date stands at its beginning, and the search for file names takes time by the square. */
const LOOKED_AT = 400;
/** File names, and paths. */
const FILES = /\S+\.\p{L}[\p{L}\d]{1,4}(?![\p{L}\d])|\S*_\S*/gu;

/**
 * The dates that a log prints although its draft reads none: those of the night's folder may be other ones.
 *
 * @returns a clause in the present tense; empty if the draft reads a date, or the log prints none
 */
export function unreadDates(sample: LogSample, { stamp, date, sections, layout }: DraftReport): readonly string[] {
  const { lines } = sample;
  // Where some lines have a date that is read, the night has only its year.
  if (stamp === null || sections.length > 0 || stamp.from !== undefined || readsDays(stamp)) return [];
  // In rows and records the time may stand anywhere.
  const clock = RoughClock.of(layout === null ? stamp : { ...stamp, at: 'anywhere' });
  const ofEvening = date.from === 'header' && date.evening;
  if (date.from !== 'session' && !ofEvening) return [];
  const days = ofEvening ? [] : daysOf(lines, clock);
  const found = ofEvening
    ? onItsMorning(sample, date, clock)
    : (keptAllDay(days) ?? writtenOnceADay(days) ?? statedAtTheHead(lines));
  return found === null ? [] : [`it prints a date that the draft does not read, "${textOf(found)}"`];
}

/** Some of the lines have dates that are read. */
function readsDays({ pattern, more = [] }: StampGuess): boolean {
  return [pattern, ...more].some((one) => one.includes('{day}'));
}

/** The lines of one day by the log's own clock, each as its texts; the last may have none of its own. */
interface Day {
  /** The lines above the first with a time, after the day before. */
  readonly above: readonly string[];
  readonly lines: readonly string[];
}

function daysOf(lines: readonly string[], clock: RoughClock): readonly Day[] {
  const days = new Map<number, { above: string[]; lines: string[] }>();
  let above: string[] = [];
  let last: { above: string[]; lines: string[] } | null = null;
  for (const text of lines) {
    const atMs = clock.read(text)?.atMs ?? NaN;
    if (Number.isNaN(atMs)) {
      above.push(text);
      continue;
    }
    const day = Math.floor(atMs / DAY_MS);
    const own: { above: string[]; lines: string[] } = days.get(day) ?? { above: [], lines: [] };
    days.set(day, own);
    if (own !== last) own.above.push(...above);
    above = [];
    own.lines.push(text);
    last = own;
  }
  return [...days.values()];
}

/** A text that most lines of a day have, and none of the next, which has another of its form. */
function keptAllDay([first, second]: readonly Day[]): string | null {
  if (first === undefined || second === undefined) return null;
  if (first.lines.length < MIN_LINES || second.lines.length < MIN_LINES) return null;
  const [own, next] = [first, second].map(({ lines }) => countsOf(lines));
  if (own === undefined || next === undefined) return null;
  const kept = [...own].filter(([text, count]) => count >= MOST * first.lines.length && !next.has(text));
  const ofNext = [...next].filter(([text, count]) => count >= MOST * second.lines.length && !own.has(text));
  const forms = new Set(ofNext.map(([text]) => formOf(text)));
  return kept.map(([text]) => text).find((text) => forms.has(formOf(text))) ?? null;
}

/** A text in or above the first lines of each of two days, whose form no other line has. */
function writtenOnceADay([first, second]: readonly Day[]): string | null {
  if (first === undefined || second === undefined) return null;
  const begins = [first, second].map(({ above, lines }) => [...above, ...lines.slice(0, FIRST_LINES)]);
  const others = new Set(
    [first, second].flatMap(({ lines }) => [...countsOf(lines.slice(FIRST_LINES)).keys()]).map(formOf),
  );
  const [own = [], next = []] = begins.map((texts) =>
    [...countsOf(texts).keys()].filter((t) => !others.has(formOf(t))),
  );
  const forms = new Map(next.map((text) => [formOf(text), text]));
  return own.find((text) => (forms.get(formOf(text)) ?? text) !== text && isDay(textOf(text))) ?? null;
}

/**
 * A date on many of the lines themselves, where the draft takes one line's for the evening's: the lines of that very
 * morning have it as well.
 */
function onItsMorning({ lines }: LogSample, date: DateSource & { from: 'header' }, clock: RoughClock): string | null {
  const eveningMs = instant(date.pattern, lines[date.line - 1] ?? '');
  const read = lines.flatMap((text) => {
    const atMs = clock.read(text)?.atMs;
    return atMs === undefined ? [] : [{ text, isMorning: atMs % DAY_MS < DAY_MS / 2 }];
  });
  const found = read.flatMap(({ text: line, isMorning }) => {
    if (!isMorning) return [];
    const text = line.slice(0, LOOKED_AT).replace(FILES, ' ');
    const stated = findDate(text);
    if (stated === null || instant(stated.pattern, text) !== eveningMs) return [];
    return [text.slice(stated.start, stated.end)];
  });
  return found.length >= MANY * read.length ? (found[0] ?? null) : null;
}

/** Two numbers, or one beside a word: a date without a year at least. */
function isDay(text: string): boolean {
  return /\d\D+\d/.test(text) || /\p{L}/u.test(text);
}

function statedAtTheHead(lines: readonly string[]): string | null {
  for (const text of lines.slice(0, HEAD_LINES)) {
    if (isOtherDate(text)) continue;
    const found = DATES.exec(text)?.[0] ?? ofMonth(text);
    if (found !== null) return found;
  }
  return null;
}

/** A year beside another number, a number of the day and the month, or three numbers of a date. */
const DATES =
  /(?<![\d.,])(?:19|20)\d{2}(?!\d)(?:[-/. ]{1,2}|-?\p{L})\d{1,3}(?![\d:])|(?<!\d)\d{1,4}[年년]\s?\d{1,2}[月월]|(?<!\d)\d{1,2}[月월]\s?\d{1,2}[日일]|(?<![\d.,])\d{1,2}([-/.])\s?\d{1,2}\1\s?(?:19|20)\d{2}(?!\d)/u;

/** The name of a month, in full, beside a number. */
function ofMonth(text: string): string | null {
  for (const [whole, before, name = '', behind] of text.matchAll(
    /(\d{1,2})?\P{L}{0,3}(?:(?:de|of)\s)?(\p{L}{4,12})\P{L}{0,2}(\d{1,4})?/gu,
  ))
    if ((before ?? behind) !== undefined && monthNumber(name) > 0) return whole.trim();
  return null;
}

/** How many lines have each text with a number: cells, with their place in the row, and words. */
function countsOf(lines: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const line of lines) {
    const cells = line.split(CELLS).map((text, i) => `${PLACE}${i} ${text.trim()}`);
    const words = line.split(WORDS);
    for (const text of new Set([...cells, ...words]))
      if (text.length <= LONGEST && /\d/.test(textOf(text))) increment(counts, text);
  }
  return counts;
}

const CELLS = /[\t;|,"]/;
const WORDS = /[\s;|,"'<>(){}[\]=]+/;
const PLACE = '\u0000';

function textOf(text: string): string {
  return text.startsWith(PLACE) ? text.slice(text.indexOf(' ') + 1) : text;
}

/** A text without its numbers and words; that of a cell keeps its place. */
function formOf(text: string): string {
  const own = textOf(text);
  return text.slice(0, text.length - own.length) + own.replace(/\d+/g, '0').replace(/\p{L}+/gu, 'a');
}
