import { blankLength, COMMA, isBlank, isDigit, POINT } from './bytes.js';
import { StampParts } from './stamp-parts.js';
import { newStamp, TIME_TOKENS, type Stamp, type StampKind, type StampPlace, type TimeToken } from './stamp-tokens.js';
import { markOfUsual, readUsual } from './usual-stamp.js';

export { newStamp, TIME_TOKENS, type Stamp, type StampKind, type StampPlace };

/** How far from its beginning, or from its end, a line is searched for its stamp, bytes. */
const SEARCHED = 512;
const CARRIAGE_RETURN = 0x0d;

type Step =
  | { readonly token: TimeToken; readonly perCount: number }
  | { readonly literal: Buffer }
  | { readonly token: 'blank' };

/** An invalid time pattern, and the reason. */
export class TimePatternError extends Error {}

/** A compiled time pattern, such as `[{year}-{month}-{day} {hour}:{minute}:{second}]`. */
export class StampPattern {
  readonly kind: StampKind;
  private readonly steps: readonly Step[];
  private readonly fractionMarks: ReadonlySet<number>;
  private readonly tokens: ReadonlySet<string>;
  private readonly usualMark: number | undefined;

  /** @throws TimePatternError when the pattern has unknown placeholders or does not determine a time */
  constructor(readonly source: string) {
    this.steps = parseSteps(source);
    this.tokens = new Set(this.steps.flatMap((step) => ('token' in step ? [step.token] : [])));
    this.kind = kindOf(this.tokens);
    this.fractionMarks = fractionMarks(this.steps);
    this.usualMark = markOfUsual(source);
  }

  /** Whether the pattern contains a UTC offset. */
  get hasOffset(): boolean {
    return this.kind === 'epoch' || this.tokens.has('offset');
  }

  /** Whether it contains the hour but no minutes: enough for a heading, not for a line. */
  get isHourAlone(): boolean {
    const hasHour = ['hour', 'hour12', 'night-hour'].some((name) => this.tokens.has(name));
    return hasHour && !this.tokens.has('minute') && !this.tokens.has('decimal-minute');
  }

  /** Whether it is a dial of twelve hours: nothing tells the halves of the day but what comes before. */
  get isDial(): boolean {
    return this.tokens.has('hour12') && !this.tokens.has('am-pm');
  }

  /** Reads the pattern at the position of the line's stamp. */
  readIn(place: StampPlace, bytes: Uint8Array, start: number, end: number, stamp: Stamp): boolean {
    switch (place) {
      case 'start':
        return this.readAt(bytes, start, end, stamp);
      case 'anywhere':
        return this.find(bytes, start, Math.min(end, start + SEARCHED), stamp);
      case 'end':
        return this.findLast(bytes, start, end, stamp);
    }
  }

  /** Reads the pattern at byte `start`; nothing beyond `end` is examined. */
  readAt(bytes: Uint8Array, start: number, end: number, stamp: Stamp): boolean {
    if (this.usualMark !== undefined && readUsual(bytes, start, end, this.usualMark, stamp)) return true;
    const parts = scratch;
    parts.reset();
    stamp.start = start;
    let i = start;
    for (const step of this.steps) {
      i =
        'literal' in step
          ? literalEnd(bytes, i, end, step.literal)
          : step.token === 'blank'
            ? blanksEnd(bytes, i, end)
            : parts.read(step.token, bytes, i, end, this.fractionMarks, step.perCount);
      if (i < 0) return false;
    }
    return parts.into(stamp, this.kind, this.tokens.has('hour12'), i);
  }

  /** Reads the first match of the pattern in bytes `[start, end)`. */
  find(bytes: Uint8Array, start: number, end: number, stamp: Stamp): boolean {
    for (let i = start; i < end; i++) {
      // The tail of a longer number is not a stamp.
      const inNumber = i > start && isDigit(bytes[i - 1]) && isDigit(bytes[i]);
      if (!inNumber && this.readAt(bytes, i, end, stamp)) return true;
    }
    return false;
  }

  /** Reads the pattern at the end of bytes `[start, end)`, ignoring trailing blanks. */
  private findLast(bytes: Uint8Array, start: number, end: number, stamp: Stamp): boolean {
    let last = end;
    while (last > start && (isBlank(bytes[last - 1]) || bytes[last - 1] === CARRIAGE_RETURN)) last--;
    for (let i = Math.max(start, last - SEARCHED); i < last; i++) {
      const inNumber = i > start && isDigit(bytes[i - 1]) && isDigit(bytes[i]);
      if (!inNumber && this.readAt(bytes, i, last, stamp) && stamp.end === last) return true;
    }
    return false;
  }
}

/** Used by one reading at a time. */
const scratch = new StampParts();

function parseSteps(source: string): Step[] {
  if (source.length > 200) throw new TimePatternError('the pattern is longer than 200 characters');
  const steps: Step[] = [];
  for (const match of source.matchAll(/\{\{|\}\}|\{([^{}]*)\}|\s+|[^{}\s]+|[{}]/g)) {
    const [text, name] = match;
    if (name !== undefined) steps.push(placeholder(name));
    else if (text === '{' || text === '}')
      throw new TimePatternError(`an unmatched brace; write ${text}${text} for the character itself`);
    else if (/^\s/.test(text)) steps.push({ token: 'blank' });
    else steps.push({ literal: Buffer.from(text === '{{' || text === '}}' ? text.slice(0, 1) : text) });
  }
  return steps;
}

/** `{elapsed*0.1}`: a count in tenths of a second; `{elapsed*-1}`: one that counts down. */
const SCALED = /^(elapsed|elapsed-hex|epoch|epoch-hex|day-second)\*(-?\d{1,6}(?:\.\d{1,9})?)$/;

function placeholder(name: string): Step {
  const [, count, factor] = SCALED.exec(name) ?? [];
  if (count === undefined || factor === undefined) return { token: tokenOf(name), perCount: 1000 };
  const perCount = Number(factor) * 1000;
  if (perCount === 0) throw new TimePatternError(`{${name}}: what a count of one stands for must be more than 0 s`);
  if (perCount < 0 && !count.startsWith('elapsed'))
    throw new TimePatternError(`{${name}}: only {elapsed} and {elapsed-hex} can count down`);
  return { token: tokenOf(count), perCount };
}

function tokenOf(name: string): TimeToken {
  const token = TIME_TOKENS.find((known) => known === name);
  if (token === undefined)
    throw new TimePatternError(
      `{${name}} is not known; the placeholders are ${TIME_TOKENS.map((known) => `{${known}}`).join(', ')}`,
    );
  return token;
}

const COUNTS_FROM_1970 = ['epoch', 'epoch-ms', 'epoch-us', 'epoch-ns', 'epoch-hex', 'julian', 'mjd'] as const;
const COUNTS = ['elapsed', 'elapsed-ms', 'elapsed-clock', 'elapsed-spelt', 'elapsed-hex'] as const;

function kindOf(tokens: ReadonlySet<string>): StampKind {
  const has = (...names: TimeToken[]): boolean => names.every((name) => tokens.has(name));
  // Whole days with a time of day beside them.
  if (has('mjd', 'hour', 'minute')) return 'date-time';
  if (COUNTS_FROM_1970.some((name) => has(name))) return 'epoch';
  if (COUNTS.some((name) => has(name))) return 'elapsed';
  const ofDay = has('day-second') || has('day-ms');
  if (ofDay && (has('hour') || has('night-hour') || has('hour12') || has('minute') || has('second')))
    throw new TimePatternError('{day-second} and {day-ms} replace {hour}, {minute} and {second}; keep one');
  const time = ofDay || has('hour') || has('night-hour') || has('hour12');
  if (has('serial-day')) return 'date-time';
  const hasMinute = has('minute') || has('decimal-minute');
  const isWeek = has('week-date');
  const year = has('year') || has('year2') || has('era-year') || isWeek;
  const monthDay = isWeek || ((has('month') || has('month-name')) && has('day'));
  if (has('day-fraction') && year && (monthDay || has('day-of-year'))) return 'date-time';
  if (has('day-fraction') && !has('day')) return 'time';
  if (has('day-fraction') && monthDay) return 'month-day-time';
  if (has('day-of-year') && (year || time))
    return !year ? 'month-day-time' : time && (ofDay || hasMinute) ? 'date-time' : 'date';
  const date = monthDay && year;
  // An hour without minutes is the beginning of that hour.
  if (time && (ofDay || hasMinute || !has('second'))) {
    if (date) return 'date-time';
    if (monthDay) return 'month-day-time';
    if (!has('day') && !has('month') && !has('month-name')) return 'time';
  } else if (date) return 'date';
  else if (monthDay) return 'month-day';
  else if (year && !has('month') && !has('month-name') && !has('day')) return 'year';
  throw new TimePatternError(
    'it must hold {hour} and {minute} or {day-second} (with or without year, month and day), or {epoch}, {julian}, ' +
      '{mjd} or {serial-day}, or {elapsed}, or a date of {year}, {month} and {day}, or for the year alone {year}',
  );
}

/** Seconds may have a fraction after a point or a comma, unless the following pattern text begins with that mark. */
function fractionMarks(steps: readonly Step[]): ReadonlySet<number> {
  const marks = new Set([POINT, COMMA]);
  steps.forEach((step, i) => {
    const before = steps[i - 1];
    if ('literal' in step && before !== undefined && 'token' in before && before.token === 'second')
      marks.delete(step.literal[0] ?? 0);
  });
  return marks;
}

function literalEnd(bytes: Uint8Array, start: number, end: number, literal: Buffer): number {
  if (start + literal.length > end) return -1;
  for (let i = 0; i < literal.length; i++) if (bytes[start + i] !== literal[i]) return -1;
  return start + literal.length;
}

function blanksEnd(bytes: Uint8Array, start: number, end: number): number {
  let i = start;
  for (let length = 1; length > 0 && i < end; i += length) length = blankLength(bytes, i);
  return i > start ? i : -1;
}
