import { monthNumber } from '../time/month-names.js';

/** A time as found in a line: where it stands, and the time pattern that reads it. */
export interface FoundStamp {
  readonly start: number;
  readonly end: number;
  /** Placeholders and literals; `{a}` and `{b}` stand for day and month where their order is not yet known. */
  readonly pattern: string;
  /** The two numbers of an undecided date. */
  readonly undecided?: readonly [number, number];
}

/** How the lines of a log are stamped. */
export interface StampGuess {
  /** A time pattern of a dialect, with the text before the stamp when that is always the same. */
  readonly pattern: string;
  /** The stamp does not always stand at the same place. */
  readonly anywhere: boolean;
  /** Share of the lines that it reads. */
  readonly coverage: number;
  /** Day and month could not be told apart and were taken as day first. */
  readonly dayFirstAssumed: boolean;
}

interface Shape {
  readonly regExp: RegExp;
  /** The pattern of a match, or `null` when it is none after all. */
  readonly build: (match: RegExpExecArray) => Omit<FoundStamp, 'start' | 'end'> | null;
}

const TIME = String.raw`(?<h>\d{1,2})(?<hs>[:h])(?<mi>\d{2})(?:(?<ms>[:m])(?<se>\d{2})(?<fr>[.,]\d{1,9})?(?<su>s(?![a-z]))?)?(?<ap>\s?[AaPp]\.?[Mm]\.?(?![a-z]))?`;
const COMPACT_TIME = String.raw`(?<ch>[012]\d)(?<cm>[0-5]\d)(?<cs>[0-6]\d)(?<cf>[.,]\d{1,9})?`;
const OFFSET = String.raw`(?<of>\s?(?:Z|UTC|GMT|[+-]\d{2}:?\d{2})(?![\w:]))?`;
const DATE_YMD = String.raw`(?<y>(?:19|20)\d{2})(?<d1>[-/.])(?<m>\d{1,2})\k<d1>(?<d>\d{1,2})`;
const DATE_AB = String.raw`(?<a>\d{1,2})(?<d1>[-/.])(?<b>\d{1,2})\k<d1>(?<y4>\d{4}|\d{2})`;
const COMPACT_DATE = String.raw`(?<y>(?:19|20)\d{2})(?<m>[01]\d)(?<d>[0-3]\d)`;
const DATE_D_MON = String.raw`(?<d>\d{1,2})(?<s1>\.?[ -])(?<mon>\p{L}{3,10}\.?)(?:(?<s2>,?[ -])(?<y>(?:19|20)\d{2}))?`;
const DATE_MON_D = String.raw`(?<mon>\p{L}{3,10}\.?)(?<s1> {1,2})(?<d>\d{1,2})(?:(?<s2>,? )(?<y>(?:19|20)\d{2}))?`;
const BETWEEN = String.raw`(?<gap>[T_,;|\t -]{1,3}| at | um | a las | à )`;
const NO_DIGIT_BEFORE = String.raw`(?<![\d.,:])`;

const DATED_SHAPES: readonly Shape[] = [
  dated(DATE_YMD, ({ d1 }) => `{year}${d1}{month}${d1}{day}`),
  dated(DATE_AB, ({ d1, y4 }) => `{a}${d1}{b}${d1}${y4?.length === 2 ? '{year2}' : '{year}'}`),
  dated(COMPACT_DATE, () => '{year}{month}{day}'),
  dated(DATE_D_MON, ({ s1, s2, y, mon }) =>
    isMonth(mon) ? `{day}${s1}{month-name}${y === undefined ? '' : `${s2}{year}`}` : null,
  ),
  dated(DATE_MON_D, ({ s1, s2, y, mon }) =>
    isMonth(mon) ? `{month-name}${s1}{day}${y === undefined ? '' : `${s2}{year}`}` : null,
  ),
];

const OTHER_SHAPES: readonly Shape[] = [
  { regExp: new RegExp(String.raw`${NO_DIGIT_BEFORE}1\d{12}(?!\d)`, 'u'), build: () => ({ pattern: '{epoch-ms}' }) },
  {
    regExp: new RegExp(String.raw`${NO_DIGIT_BEFORE}1\d{9}(?:[.,]\d{1,9})?(?!\d)`, 'u'),
    build: () => ({ pattern: '{epoch}' }),
  },
  {
    regExp: new RegExp(`${NO_DIGIT_BEFORE}${TIME}${OFFSET}`, 'u'),
    build: ({ groups = {} }) => ({ pattern: timeTokens(groups) }),
  },
  {
    regExp: /^[^\p{L}\d]{0,3}\d{1,7}[.,]\d{1,6}(?![\d.,:])/u,
    build: ([text]) => ({ pattern: `${text.replace(/[\d.,]+$/, '')}{elapsed}` }),
  },
];

/** Dates alone, as they stand in a header line or a file's name. */
const DATE_SHAPES: readonly Shape[] = [
  {
    regExp: new RegExp(`${NO_DIGIT_BEFORE}${DATE_YMD}(?!\\d)`, 'u'),
    build: ({ groups }) => ({ pattern: `{year}${groups?.d1}{month}${groups?.d1}{day}` }),
  },
  {
    regExp: new RegExp(`${NO_DIGIT_BEFORE}${COMPACT_DATE}(?!\\d)`, 'u'),
    build: () => ({ pattern: '{year}{month}{day}' }),
  },
  {
    regExp: new RegExp(`(?<!\\d)${DATE_D_MON}(?!\\d)`, 'u'),
    build: ({ groups = {} }) =>
      isMonth(groups.mon) && groups.y !== undefined
        ? { pattern: `{day}${groups.s1}{month-name}${groups.s2}{year}` }
        : null,
  },
  {
    regExp: new RegExp(`${DATE_MON_D}(?!\\d)`, 'u'),
    build: ({ groups = {} }) =>
      isMonth(groups.mon) && groups.y !== undefined
        ? { pattern: `{month-name}${groups.s1}{day}${groups.s2}{year}` }
        : null,
  },
  {
    regExp: new RegExp(`${NO_DIGIT_BEFORE}${DATE_AB}(?!\\d)`, 'u'),
    build: ({ groups = {} }) => ({
      pattern: `{day}${groups.d1}{month}${groups.d1}${groups.y4?.length === 2 ? '{year2}' : '{year}'}`,
    }),
  },
];

/** Only the beginning of a line is searched for its stamp. */
const SEARCHED = 120;

/** The first date and time, epoch or time of day in a line; `null` when there is none. */
export function findStamp(line: string): FoundStamp | null {
  const head = line.slice(0, SEARCHED);
  return (
    firstOf(DATED_SHAPES, head) ??
    OTHER_SHAPES.map((shape) => matched(shape, head)).find((found) => found !== null) ??
    null
  );
}

/** The first date in a text; day before month where they cannot be told apart. */
export function findDate(text: string): FoundStamp | null {
  return DATE_SHAPES.map((shape) => matched(shape, text.slice(0, SEARCHED))).find((found) => found !== null) ?? null;
}

/** The time pattern that reads most of the lines, or `null` when hardly any has a time. */
export function guessStamp(lines: readonly string[]): StampGuess | null {
  const found = lines.map((line) => ({ line, stamp: findStamp(line) }));
  const byPattern = new Map<string, PatternTally>();
  for (const { line, stamp } of found) {
    if (stamp === null) continue;
    const entry = byPattern.get(stamp.pattern) ?? {
      count: 0,
      prefixes: new Map(),
      suffixes: new Map(),
      monthFirst: 0,
      dayFirst: 0,
    };
    byPattern.set(stamp.pattern, entry);
    entry.count++;
    increment(entry.prefixes, line.slice(0, stamp.start));
    increment(entry.suffixes, line.slice(stamp.end, stamp.end + 1));
    if (stamp.undecided !== undefined) {
      if (stamp.undecided[0] > 12) entry.dayFirst++;
      if (stamp.undecided[1] > 12) entry.monthFirst++;
    }
  }
  const best = [...byPattern].sort((a, b) => b[1].count - a[1].count)[0];
  if (best === undefined || best[1].count < Math.max(1, lines.length * 0.1)) return null;
  const [shape, { count, prefixes, suffixes, monthFirst, dayFirst }] = best;
  const monthLeads = monthFirst > dayFirst;
  const pattern = shape
    .replace('{a}', monthLeads ? '{month}' : '{day}')
    .replace('{b}', monthLeads ? '{day}' : '{month}');
  const prefix = nearlyAlways(prefixes, count);
  const suffix = nearlyAlways(suffixes, count) ?? '';
  const fixed = prefix !== null;
  return {
    // A bracket or a delimiter right after the stamp belongs to it, not to the message. A comma may begin a fraction.
    pattern: escapeBraces(prefix ?? '') + pattern + (fixed && /^[\])}>|;\t]$/.test(suffix) ? escapeBraces(suffix) : ''),
    anywhere: !fixed,
    coverage: count / lines.length,
    dayFirstAssumed: shape.includes('{a}') && monthFirst === dayFirst,
  };
}

interface PatternTally {
  count: number;
  readonly prefixes: Map<string, number>;
  readonly suffixes: Map<string, number>;
  monthFirst: number;
  dayFirst: number;
}

function increment(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

/** The text that stands there in all but a few lines, or `null`. */
function nearlyAlways(counts: ReadonlyMap<string, number>, total: number): string | null {
  const [text, count] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  return count >= total * 0.95 ? text : null;
}

function escapeBraces(text: string): string {
  return text.replace(/[{}]/g, (brace) => brace + brace);
}

function dated(date: string, build: (groups: Record<string, string | undefined>) => string | null): Shape {
  const source = `${NO_DIGIT_BEFORE}${date}${BETWEEN}(?:${COMPACT_TIME}(?!\\d)|${TIME})${OFFSET}`;
  return {
    regExp: new RegExp(source, 'u'),
    build: ({ groups = {} }) => {
      const datePattern = build(groups);
      if (datePattern === null) return null;
      const pattern = `${datePattern}${groups.gap}${timeTokens(groups)}`;
      return groups.a === undefined ? { pattern } : { pattern, undecided: [Number(groups.a), Number(groups.b)] };
    },
  };
}

function timeTokens(groups: Readonly<Record<string, string | undefined>>): string {
  const offset = groups.of === undefined ? '' : `${/^\s/.test(groups.of) ? ' ' : ''}{offset}`;
  if (groups.ch !== undefined) return `{hour}{minute}{second}${offset}`;
  const half = groups.ap === undefined ? '' : `${/^\s/.test(groups.ap) ? ' ' : ''}{am-pm}`;
  const seconds = groups.se === undefined ? '' : `${groups.ms}{second}${groups.su ?? ''}`;
  return `{hour${half === '' ? '' : '12'}}${groups.hs}{minute}${seconds}${half}${offset}`;
}

function isMonth(name: string | undefined): boolean {
  return name !== undefined && monthNumber(name) > 0;
}

function matched(shape: Shape, text: string): FoundStamp | null {
  const match = shape.regExp.exec(text);
  const built = match === null ? null : shape.build(match);
  return match === null || built === null ? null : { start: match.index, end: match.index + match[0].length, ...built };
}

/** The match that stands first; of two at the same place, the one whose shape is listed first. */
function firstOf(shapes: readonly Shape[], text: string): FoundStamp | null {
  return shapes
    .map((shape) => matched(shape, text))
    .reduce<FoundStamp | null>(
      (best, found) => (found !== null && (best === null || found.start < best.start) ? found : best),
      null,
    );
}
