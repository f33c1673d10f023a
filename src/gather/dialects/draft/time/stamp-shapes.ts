import { monthNumber } from '../../time/month-names.js';
import { withWeekdays } from './weekdays.js';

/** A time as found in a text: where it stands, and the time pattern that reads it. */
export interface FoundStamp {
  readonly start: number;
  readonly end: number;
  /** Placeholders and literals; `{a}`, `{b}` and `{c}` stand for parts of a date whose order is not yet known. */
  readonly pattern: string;
}

interface Shape {
  readonly regExp: RegExp;
  /** The pattern of a match, or `null` when it is none after all. */
  readonly build: (groups: Groups, text: string) => string | null;
}

type Groups = Readonly<Record<string, string | undefined>>;

const TIME = String.raw`(?<ap0>(?:午前|午後|上午|下午)\s?)?(?<h>\d{1,2})(?<hs>[:h]|時|时|点|點)(?<mi>\d{2})(?:(?<ms>[:m]|分)(?:(?<se>\d{2})(?<fr>[.,]\d{1,9})?(?<su>s(?![a-z])|秒)?)?)?(?<ap>\s?(?:[AaPp]\.?\s?[Mm]\.?(?![a-z])))?`;
const DOTTED_TIME = String.raw`(?<h>[012]?\d)(?<hs>\.)(?<mi>[0-5]\d)(?<ms>\.)(?<se>[0-5]\d)(?<fr>[,]\d{1,9})?`;
const COMPACT_TIME = String.raw`(?<ch>[012]\d)(?<cm>[0-5]\d)(?<cs>[0-6]\d)(?<cf>[.,]\d{1,9})?`;
/** `20 h 04 min 02 s`: blanks, of no break or not, inside. */
const SPELT_TIME = String.raw`(?<h>\d{1,2})(?<hs>[\s\u00a0\u202f]?h[\s\u00a0\u202f])(?<mi>\d{1,2})(?:(?<ms>[\s\u00a0\u202f]?m(?:in|n)?\.?[\s\u00a0\u202f]?)(?<se>\d{1,2})(?<fr>[.,]\d{1,3})?(?<su>[\s\u00a0\u202f]?s(?:ec|ek)?(?![a-z]))?)?`;
const OFFSET = String.raw`(?<of>\s?(?:Z|UTC|GMT|[+-]\d{2}:?\d{2})(?![\w:]))?`;
const DATE_YMD = String.raw`(?<y>(?:19|20)\d{2})(?<d1>[-/.])(?<m>\d{1,2})\k<d1>(?<d>\d{1,2})`;
const DATE_CJK = String.raw`(?<y>(?:19|20)\d{2})(?<d1>年)(?<m>\d{1,2})月(?<d>\d{1,2})日`;
const DATE_Y_MON_D = String.raw`(?<y>(?:19|20)\d{2})(?<s1>[-/. ])(?<mon>\p{L}{3,12}\.?)(?<s2>[-/. ])(?<d>\d{1,2})`;
const TIME_CJK = String.raw`(?<ap0>(?:午前|午後|上午|下午)\s?)?(?<h>\d{1,2})(?<hs>時|时|点|點)(?<mi>\d{1,2})(?<ms>分)(?:(?<se>\d{1,2})(?<fr>[.,]\d{1,9})?(?<su>秒)?)?`;
const DATE_AB = String.raw`(?<a>\d{1,2})(?<d1>[-/.])(?<b>\d{1,2})\k<d1>(?<y4>\d{4})`;
const DATE_ABC = String.raw`(?<a>\d{1,2})(?<d1>[-/.])(?<b>\d{1,2})\k<d1>(?<c>\d{2})(?![\d])`;
const COMPACT_DATE = String.raw`(?<y>(?:19|20)\d{2})(?<m>[01]\d)(?<d>[0-3]\d)`;
const COMPACT_ABC = String.raw`(?<a>\d{2})(?<d1>)(?<b>\d{2})(?<c>\d{2})(?=[T_ -]\d{6})`;
/** Numbers of a date set apart by points and blanks: `22. 10. 2026`. */
const DATE_SPACED = String.raw`(?<a>\d{1,2})\. (?<b>\d{1,2})\. (?<y4>\d{4})`;
/** Hours, minutes and seconds with hyphens, as in names of files; only beside a date. */
const DASHED_TIME = String.raw`(?<h>[012]\d)(?<hs>[-_])(?<mi>[0-5]\d)(?<ms>[-_])(?<se>[0-6]\d)(?<fr>[.,]\d{1,9})?`;
/** Without a year: it stands in a header line, or in the file's name. */
const DATE_MD = String.raw`(?<a>\d{1,2})(?<d1>[-/.])(?<b>\d{1,2})`;
const DATE_D_MON = String.raw`(?<d>\d{1,2})(?<s1>(?:\.|º|er|st|nd|rd|th)?(?: de | of | d['’]|[ -]))(?<mon>\p{L}{3,12}\.?)(?:(?<s2>,?(?: de | del |[ -]))(?<y>(?:19|20)\d{2}))?`;
const DATE_MON_D = String.raw`(?<mon>\p{L}{3,12}\.?)(?<s1> {1,2})(?<d>\d{1,2})(?:(?<s2>(?:st|nd|rd|th)?,? )(?<y>(?:19|20)\d{2}))?`;
/** Between date and time: a mark, a word such as `at`, `um` or `ore`, a day of the week. */
const BETWEEN = String.raw`(?<gap>[^\d{}]{1,24}?)`;
const NO_DIGIT_BEFORE = String.raw`(?<![\d.,:])`;

const DATES: readonly [string, (groups: Groups) => string | null][] = [
  [DATE_YMD, ({ d1 }) => `{year}${d1}{month}${d1}{day}`],
  [DATE_CJK, () => '{year}年{month}月{day}日'],
  [DATE_AB, ({ d1 }) => `{a}${d1}{b}${d1}{year}`],
  [DATE_SPACED, () => '{a}. {b}. {year}'],
  [DATE_ABC, ({ d1 }) => `{a}${d1}{b}${d1}{c}`],
  [DATE_Y_MON_D, ({ s1, s2, mon }) => (isMonth(mon) ? `{year}${s1}{month-name}${s2}{day}` : null)],
  [DATE_MD, ({ d1 }) => `{a}${d1}{b}`],
  [COMPACT_DATE, () => '{year}{month}{day}'],
  [COMPACT_ABC, () => '{a}{b}{c}'],
  [
    DATE_D_MON,
    ({ s1, s2, y, mon }) =>
      isMonth(mon) ? `{day}${ordinal(s1)}{month-name}${y === undefined ? '' : `${s2}{year}`}` : null,
  ],
  [
    DATE_MON_D,
    ({ s1, s2, y, mon }) =>
      isMonth(mon) ? `{month-name}${s1}{day}${y === undefined ? '' : `${ordinal(s2)}{year}`}` : null,
  ],
];

/** What may stand before a count at the beginning of a line: blanks, marks, a name such as `T+` or `t=`. */
const COUNT_BEFORE = String.raw`(?<=^\s*[^\p{L}\d\s]{0,3}\s{0,8}(?:\p{L}{1,10}\s?[=:+]\s?)?)`;
const TIMES = `(?:${COMPACT_TIME}(?!\\d)|${TIME})${OFFSET}`;

const SHAPES: readonly Shape[] = [
  shape(
    `(?<!\\d)${DATE_CJK}(?<gap>\\s?(?:[(（][^\\d()（）]{1,3}[)）])?\\s?)${TIME_CJK}`,
    (groups) => `{year}年{month}月{day}日${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`,
  ),
  shape(`(?<!\\d)${TIME_CJK}`, timeTokens),
  shape(`(?<![\\d.,:])${SPELT_TIME}`, timeTokens),
  // Digits without any marks: year first, or two-digit parts whose order the proof finds.
  shape(
    '(?<!\\d)(?:19|20)\\d{2}[01]\\d[0-3]\\d[012]\\d[0-5]\\d[0-5]\\d(?<fr>\\d{3})?(?!\\d)',
    ({ fr }) => `{year}{month}{day}{hour}{minute}{second}${fr === undefined ? '' : '{fraction}'}`,
  ),
  shape('(?<!\\d)20\\d{2}[01]\\d[0-3]\\d[012]\\d[0-5]\\d(?!\\d)', () => '{year}{month}{day}{hour}{minute}'),
  shape('(?<!\\d)\\d{6}[012]\\d[0-5]\\d[0-5]\\d(?![\\d])', () => '{a}{b}{c}{hour}{minute}{second}'),
  shape('(?<![\\d.,])24[5-7]\\d{4}[.,]\\d{3,12}(?!\\d)', () => '{julian}'),
  shape('(?<![\\d.,])6[01]\\d{3}[.,]\\d{4,12}(?!\\d)', () => '{mjd}'),
  ...DATES.flatMap(([date, build]): Shape[] => [
    shape(`${NO_DIGIT_BEFORE}${date}${BETWEEN}${TIMES}`, (groups) =>
      joined(build(groups), `${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`),
    ),
    shape(`${NO_DIGIT_BEFORE}${date}(?<gap>[T_ -]{1,3})${DASHED_TIME}(?!\\d)`, (groups) =>
      joined(build(groups), `${groups.gap}${timeTokens(groups)}`),
    ),
    shape(`${NO_DIGIT_BEFORE}${date}${BETWEEN}${DOTTED_TIME}(?![\\d.])`, (groups) =>
      joined(build(groups), `${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`),
    ),
    shape(`${NO_DIGIT_BEFORE}${TIME}(?<gap>[^\\d{}]{1,24}?)${date}`, (groups) => {
      const built = build(groups);
      return built === null ? null : `${timeTokens(groups)}${withWeekdays(groups.gap ?? '')}${built}`;
    }),
  ]),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{15}(?!\d)`, () => '{epoch-us}'),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{12}(?!\d)`, () => '{epoch-ms}'),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{9}(?:[.,]\d{1,9})?(?!\d)`, () => '{epoch}'),
  shape(`${NO_DIGIT_BEFORE}${TIME}${OFFSET}`, timeTokens),
  shape(`${NO_DIGIT_BEFORE}${DOTTED_TIME}(?![\\d.])`, timeTokens),
  shape(String.raw`(?<=^[^\p{L}\d]{0,3}\p{L}?)${COMPACT_TIME}(?![\d.,:])`, timeTokens),
  shape(String.raw`${COUNT_BEFORE}\d{1,12}(?:[.,]\d{1,6})?(?![\d.,:])`, () => '{elapsed}'),
  shape(String.raw`${COUNT_BEFORE}\d{1,4}:\d{2}(?::\d{2})?(?:[.,]\d{1,6})?(?![\d.,:])`, () => '{elapsed}'),
];

/** Dates alone, as they stand in a header line or a file's name; a night of two dates gives its evening. */
const DATE_SHAPES: readonly Shape[] = [
  shape(
    `(?<!\\d)(?<d>\\d{1,2})(?<r1>\\.?)(?<r2>\\s?[^\\d\\s{}]{1,3}\\s?)(?<e>\\d{1,2})(?<s1>\\.?(?: de | of |[ -]))(?<mon>\\p{L}{3,12})(?<s2>,?(?: de | del |[ -]))(?<y>(?:19|20)\\d{2})`,
    ({ r1, r2, s1, mon, s2 }) => (isMonth(mon) ? `{day}${r1}${r2}{number}${s1}{month-name}${s2}{year}` : null),
  ),
  shape(`${NO_DIGIT_BEFORE}${DATE_YMD}(?!\\d)`, ({ d1 }) => `{year}${d1}{month}${d1}{day}`),
  shape(`(?<!\\d)${DATE_CJK}`, () => '{year}年{month}月{day}日'),
  shape(`(?<!\\d)${COMPACT_DATE}(?!\\d)`, () => '{year}{month}{day}'),
  shape(`${NO_DIGIT_BEFORE}${DATE_Y_MON_D}(?!\\d)`, ({ s1, s2, mon }) =>
    isMonth(mon) ? `{year}${s1}{month-name}${s2}{day}` : null,
  ),
  shape(`(?<!\\d)${DATE_D_MON}(?!\\d)`, ({ s1, s2, y, mon }) =>
    y !== undefined && isMonth(mon) ? `{day}${ordinal(s1)}{month-name}${s2}{year}` : null,
  ),
  shape(`${DATE_MON_D}(?!\\d)`, ({ s1, s2, y, mon }) =>
    y !== undefined && isMonth(mon) ? `{month-name}${s1}{day}${ordinal(s2)}{year}` : null,
  ),
  shape(
    `${NO_DIGIT_BEFORE}${DATE_AB}(?!\\d)`,
    ({ d1, a, b }) => `${Number(b) > 12 && Number(a) <= 12 ? `{month}${d1}{day}` : `{day}${d1}{month}`}${d1}{year}`,
  ),
  shape(`${NO_DIGIT_BEFORE}${DATE_SPACED}(?!\\d)`, ({ a, b }) =>
    Number(b) > 12 && Number(a) <= 12 ? '{month}. {day}. {year}' : '{day}. {month}. {year}',
  ),
  shape(`${NO_DIGIT_BEFORE}${DATE_ABC}`, ({ d1, a, c }) =>
    Number(a) >= 20 && Number(c) <= 31 ? `{year2}${d1}{month}${d1}{day}` : `{day}${d1}{month}${d1}{year2}`,
  ),
  shape('(?<!\\d)(?<a>\\d{2})(?<b>[01]\\d)(?<c>\\d{2})(?!\\d)', ({ a, c }) =>
    Number(a) >= 20 && Number(c) <= 31 ? '{year2}{month}{day}' : '{day}{month}{year2}',
  ),
];

/** Dates that leave the year to another place. */
const YEARLESS_SHAPES: readonly Shape[] = [
  shape('(?<!\\d)(?<m>\\d{1,2})月(?<d>\\d{1,2})日', () => '{month}月{day}日'),
  shape(`(?<!\\d)${DATE_D_MON}(?!\\d)`, ({ s1, y, mon }) =>
    y === undefined && isMonth(mon) ? `{day}${ordinal(s1)}{month-name}` : null,
  ),
  shape(`${DATE_MON_D}(?!\\d)`, ({ s1, y, mon }) =>
    y === undefined && isMonth(mon) ? `{month-name}${s1}{day}` : null,
  ),
];

/** Only the beginning of a line is searched for its stamp. */
const SEARCHED = 160;

/** Every way to read a time at the place where each shape first stands in a line. */
export function stampsIn(line: string): FoundStamp[] {
  const head = line.slice(0, SEARCHED);
  return SHAPES.flatMap((one) => matched(one, head) ?? []);
}

/** The first date in a text; day before month where they cannot be told apart. */
export function findDate(text: string): FoundStamp | null {
  for (const one of DATE_SHAPES) {
    const found = matched(one, text.slice(0, 400));
    if (found !== null) return found;
  }
  return null;
}

/** The first date without a year in a text. */
export function findYearless(text: string): FoundStamp | null {
  for (const one of YEARLESS_SHAPES) {
    const found = matched(one, text.slice(0, 200));
    if (found !== null) return found;
  }
  return null;
}

function shape(source: string, build: Shape['build']): Shape {
  return { regExp: new RegExp(source, 'u'), build };
}

function joined(date: string | null, rest: string): string | null {
  return date === null ? null : `${date}${rest}`;
}

function timeTokens(groups: Groups): string {
  const offset = groups.of === undefined ? '' : `${/^\s/.test(groups.of) ? ' ' : ''}{offset}`;
  if (groups.ch !== undefined) return `{hour}{minute}{second}${offset}`;
  const half = groups.ap === undefined ? '' : `${/^\s/.test(groups.ap) ? ' ' : ''}{am-pm}`;
  const before = groups.ap0 === undefined ? '' : `{am-pm}${/\s$/.test(groups.ap0) ? ' ' : ''}`;
  const seconds =
    groups.ms === undefined ? '' : `${groups.ms}${groups.se === undefined ? '' : `{second}${groups.su ?? ''}`}`;
  return `${before}{hour${half + before === '' ? '' : '12'}}${groups.hs}{minute}${seconds}${half}${offset}`;
}

/** `1st`, `2nd`, `14th`: the ending changes with the day, so any word is taken for it. */
function ordinal(text: string | undefined): string {
  return (text ?? '').replace(/^(?:st|nd|rd|th|er)(?![a-z])/, '{weekday}');
}

function isMonth(name: string | undefined): boolean {
  return name !== undefined && monthNumber(name) > 0;
}

function matched({ regExp, build }: Shape, text: string): FoundStamp | null {
  const match = regExp.exec(text);
  const pattern = match === null ? null : build(match.groups ?? {}, match[0]);
  return match === null || pattern === null
    ? null
    : { start: match.index, end: match.index + match[0].length, pattern };
}
