import { groupBy, median } from '../../../../model/index.js';
import { newStamp, StampPattern } from '../../time/stamp.js';
import { baseLinesIn, type BaseLine, type HeadLine } from './base-lines.js';
import { commonest } from './common-text.js';
import { escapeBraces } from './counting.js';
import type { StampGuess } from './guess.js';
import { hourHeadings, wholeLine } from './hour-headings.js';
import { RoughClock } from './rough-clock.js';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;

/** Possible text before the part of a time, and directly after it. */
const FRONT = String.raw`^(?<front>\s*[^\p{L}\d\s]{0,3}\s{0,8})`;
const BEHIND = String.raw`(?<behind>[\])}>|;]?)`;

/** Counts go on until the next heading, and mostly come near it. */
const UP_TO_THE_NEXT = Infinity;
const NEAR = 0.5;
/** Lines may be written slightly out of order. */
const JITTER_MS = 2000;

/** Forms of the text before a line whose heading states the rest of its time. */
const FORMS = [
  { token: '{elapsed}', body: String.raw`[0-5]?\d:[0-5]\d(?:[.,]\d{1,6})?(?![\d:.])`, restMs: HOUR_MS },
  {
    token: '{elapsed-spelt}',
    body: String.raw`[0-5]?\d\s?(?:min|mn|m|')\.?\s?[0-5]?\d(?:[.,]\d{1,3})?\s?(?:sec|sek|s|")(?![\p{L}\d])`,
    restMs: HOUR_MS,
  },
  { token: '{elapsed-spelt}', body: String.raw`[0-5]?\d分[0-5]?\d(?:[.,]\d{1,3})?秒`, restMs: HOUR_MS },
  {
    token: '{elapsed}',
    body: String.raw`[0-5]\d(?:[.,]\d{1,6})?(?![\d:.,/-]|\s?(?:\p{L}{1,2}\b|[分'°]))`,
    restMs: MINUTE_MS,
  },
  { token: '{elapsed}s', body: String.raw`[0-5]?\d(?:[.,]\d{1,6})?(?=s(?!\p{L}))`, restMs: MINUTE_MS },
  { token: '{elapsed*60}', body: String.raw`[0-5]\d(?![\d:.,/-]|\s?[分m'°])`, restMs: HOUR_MS },
  { token: '{elapsed}s', body: String.raw`\d{1,4}(?:[.,]\d{1,3})?(?=s(?!\p{L}))`, restMs: UP_TO_THE_NEXT },
  { token: '{elapsed} s', body: String.raw`\d{1,4}(?:[.,]\d{1,3})?(?= s(?!\p{L}))`, restMs: UP_TO_THE_NEXT },
  {
    token: '{elapsed}',
    body: String.raw`\d{1,4}(?:[.,]\d{1,3})?(?![\d:.,/-]|\s?(?:\p{L}{1,2}\b|[分'°]))`,
    restMs: UP_TO_THE_NEXT,
  },
] as const;

/**
 * Minimum fraction of lines that have such a part, or are headings; and of parts with the most common marks around
 * them.
 */
const COVERED = 0.85;
const ALIKE = 0.95;
const MIN_PARTS = 20;
const MIN_HEADINGS = 3;
const LONGEST = 60;
/** Minimum fraction of forward steps below one heading, and minimum number of steps. */
const FORWARD = 0.97;
const MIN_STEPS = 12;
/** Headings follow each other forwards, by less than half a day. */
const HEADINGS_FORWARD = 0.95;

/** Stamps whose more significant part is in headings. */
export interface HeadedTimes {
  readonly stamp: StampGuess;
  readonly bases: readonly BaseLine[];
  /** By the line of each heading, the instant that it states, ms on the clock of the log. */
  readonly headings: ReadonlyMap<number, number>;
}

/**
 * The times of a log whose headings state the date and hour, or hour and minute, and whose lines the minutes and
 * seconds since then; `null` if it has none.
 */
export function headedTimes(lines: readonly HeadLine[]): HeadedTimes | null {
  for (const { token, body, restMs } of FORMS) {
    const form = new RegExp(`${FRONT}(?<part>${body})${token.replace(/^.*\}/, '')}${BEHIND}`, 'u');
    const parts = lines.flatMap((line) => {
      const { front, behind } = form.exec(line.text)?.groups ?? {};
      // A time of day alone is a heading.
      return front === undefined || isAlone(line.text)
        ? []
        : [{ line, marks: `${front.trimStart().replace(/\s+/g, ' ')}\0${behind ?? ''}` }];
    });
    const [marks] = commonest(parts.map((one) => one.marks));
    const own = parts.filter((one) => one.marks === marks).map(({ line }) => line);
    if (own.length < Math.max(MIN_PARTS, ALIKE * parts.length)) continue;
    const taken = new Set(own.map(({ number }) => number));
    const rest = lines.filter(({ number }) => !taken.has(number));
    const [front = '', behind = ''] = marks.split('\0');
    const plain = `${escapeBraces(front)}${token}${escapeBraces(behind)}`;
    const read = readAll(own, plain);
    // Numbers of a column stand at its right.
    const set = own.filter(({ text }) => /^\s/.test(text)).length;
    const patterns = [...(set < own.length ? [plain] : []), ...(set > 0 ? [` ${plain}`] : [])];
    const [pattern = plain, ...more] = patterns;
    for (const bases of candidates(rest, restMs)) {
      const headings = instantsOf(bases);
      if (headings === null || own.length + bases.length < COVERED * lines.length) continue;
      if (!fits(read, headings, restMs)) continue;
      const [first] = bases;
      if (first === undefined) continue;
      const coverage = own.length / lines.length;
      return {
        stamp: {
          ...{ pattern, at: 'start', coverage, dayFirstAssumed: false, forward: 1 },
          ...(more.length === 0 ? {} : { more }),
        },
        bases: [first],
        headings,
      };
    }
  }
  return null;
}

function readAll(lines: readonly HeadLine[], pattern: string): Map<number, number> {
  const reader = new StampPattern(pattern);
  const stamp = newStamp();
  return new Map(
    lines.flatMap(({ text, number }) => {
      const bytes = Buffer.from(text.trimStart().slice(0, 80));
      return reader.readAt(bytes, 0, bytes.length, stamp) ? [[number, stamp.ms] as const] : [];
    }),
  );
}

function isAlone(text: string): boolean {
  return !/\p{L}{2}/u.test(text);
}

/** Headings by form: those that state hour and minute, or, if the rest is minutes, the hour only. */
function candidates(lines: readonly HeadLine[], restMs: number): BaseLine[][] {
  const forms = new Map<string, BaseLine[]>();
  for (const base of baseLinesIn(lines)) {
    if (base.isMidnight || !/\{minute\}/.test(base.section.base) || base.section.base.includes('{second}')) continue;
    const { text } = base.line;
    const begin = wholeLine(text, base.stamp.start, base.stamp.end);
    forms.set(begin, [...(forms.get(begin) ?? []), { ...base, section: { ...base.section, begin } }]);
  }
  const all = [...forms.values(), ...fourDigits(lines), ...(restMs >= HOUR_MS ? hourHeadings(lines) : [])];
  return all.filter(({ length }) => length >= MIN_HEADINGS).sort((a, b) => b.length - a.length);
}

const FOUR_DIGITS = /(?<![\d.,:/-])(?<time>[012]\d[0-5]\d)(?=$|[^\p{L}\d]*$)/u;

/** Lines that end with hour and minute in four digits, `mark 2130`. */
function fourDigits(lines: readonly HeadLine[]): BaseLine[][] {
  const found = lines.flatMap((line): BaseLine[] => {
    const match = line.text.length > LONGEST ? null : FOUR_DIGITS.exec(line.text);
    if (match === null) return [];
    const stamp = { start: match.index, end: match.index + 4, pattern: '{hour}{minute}' };
    const section = { begin: wholeLine(line.text, stamp.start, stamp.end), base: stamp.pattern };
    return [{ line, stamp, section, hasDay: false, isMidnight: false }];
  });
  return [...groupBy(found, ({ section }) => ('begin' in section ? section.begin : '')).values()];
}

/** The time of each heading; `null` if they are not in order. */
function instantsOf(bases: readonly BaseLine[]): Map<number, number> | null {
  const [first] = bases;
  if (first === undefined || 'file' in first.section) return null;
  const clock = new RoughClock(first.section.base, 'start');
  const instants = new Map<number, number>();
  let lastMs = NaN;
  let forward = 0;
  for (const { line, stamp } of bases) {
    const atMs = clock.read(line.text.slice(stamp.start, stamp.end))?.atMs ?? NaN;
    if (Number.isNaN(atMs)) return null;
    if (Number.isNaN(lastMs) || (atMs > lastMs && atMs - lastMs < DAY_MS / 2)) forward++;
    lastMs = atMs;
    instants.set(line.number, atMs);
  }
  return forward >= HEADINGS_FORWARD * bases.length ? instants : null;
}

/** Whether the parts increase below each heading, and not past the next. */
function fits(parts: ReadonlyMap<number, number>, headings: ReadonlyMap<number, number>, restMs: number): boolean {
  const marks = [
    ...[...parts].map(([line, ms]) => ({ line, ms, isHeading: false })),
    ...[...headings].map(([line, ms]) => ({ line, ms, isHeading: true })),
  ].sort((a, b) => a.line - b.line);
  let lastMs = NaN;
  let steps = 0;
  let forward = 0;
  let below = 0;
  let isBelow = false;
  if (restMs === UP_TO_THE_NEXT && !reachTheNext(marks)) return false;
  for (const { ms, isHeading } of marks) {
    if (isHeading) isBelow = true;
    else {
      if (ms >= restMs) return false;
      if (isBelow) below++;
      if (!Number.isNaN(lastMs)) {
        steps++;
        if (ms >= lastMs) forward++;
      }
    }
    lastMs = isHeading ? NaN : ms;
  }
  return below >= FORWARD * parts.size && steps >= MIN_STEPS && forward >= FORWARD * steps;
}

/** Whether counts in seconds go on until the next heading, which they mostly come near, and not past it. */
function reachTheNext(marks: readonly { readonly ms: number; readonly isHeading: boolean }[]): boolean {
  const heads = marks.flatMap(({ isHeading }, i) => (isHeading ? [i] : []));
  const parts = heads.slice(0, -1).flatMap((at, i) => {
    const next = heads[i + 1] ?? 0;
    const own = marks.slice(at + 1, next).map(({ ms }) => ms);
    const roomMs = ((marks[next]?.ms ?? NaN) - (marks[at]?.ms ?? NaN) + DAY_MS) % DAY_MS;
    return own.length === 0 ? [] : [{ part: Math.max(...own) / roomMs, isPast: Math.max(...own) > roomMs + JITTER_MS }];
  });
  return parts.length > 1 && !parts.some(({ isPast }) => isPast) && median(parts.map(({ part }) => part)) >= NEAR;
}
