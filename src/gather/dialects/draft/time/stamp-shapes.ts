import {
  COMPACT_ABC,
  COMPACT_DATE,
  DATE_AB,
  DATE_ABC,
  DATE_CJK,
  DATE_D_MON,
  DATE_ERA,
  DATE_MD,
  DATE_MON_D,
  DATE_OF_YEAR,
  DATE_SPACED,
  DATE_Y_MON_D,
  DATE_YMD,
  NO_DIGIT_BEFORE,
} from './date-forms.js';
import { type FoundStamp, type Groups, isMonth, joined, matched, ordinal, shape, type Shape } from './shape.js';
import { ZONE_WORDS } from '../../time/offsets.js';
import { withWeekdays } from './weekdays.js';

const TIME = String.raw`(?<ap0>(?:午前|午後|上午|下午)\s?)?(?<h>\d{1,2})(?<hs>[:h]|時|时|点|點)(?<mi>\d{2})(?:(?<ms>[:m]|分)(?:(?<se>\d{2})(?<fr>[.,]\d{1,9}|(?<fc>:)\d{3}(?!\d))?(?<su>s(?![a-z])|秒)?)?)?(?<ap>\s?(?:[AaPp]\.?\s?[Mm]\.?(?![a-z])))?`;
const DOTTED_TIME = String.raw`(?<h>[012]?\d)(?<hs>\.)(?<mi>[0-5]\d)(?<ms>\.)(?<se>[0-5]\d)(?<fr>[,]\d{1,9})?`;
const COMPACT_TIME = String.raw`(?<ch>[012]\d)(?<cm>[0-5]\d)(?<cs>[0-6]\d)(?<cf>[.,]\d{1,9})?`;
const BLANK = String.raw`[\s\u00a0\u202f]`;
const AND = `(?:,|${BLANK}(?:et|and|und|y|e|en|i|a))`;
const HOUR_WORD = String.raw`(?:[Hh]|[Hh]rs?|[Hh]ours?|[Uu]hr|[Ss]tunden?|[Hh]eures?|[Hh]oras?|[Oo]r[ae]|[Uu]ur|[Gg]odz\p{L}*|[Hh]od\p{L}*)\.?`;
const MINUTE_WORD = String.raw`(?:m|mn|[Mm]in(?:ut\p{L}*)?)\.?`;
const SECOND_WORD = String.raw`(?:s|[Ss][eé][ckg]\p{L}*|vteř\p{L}*)\.?`;
/** `20 h 04 min 02 s`, `19 h 28 et 22 secondes`: words for the units, blanks, of no break or not, inside. */
const SPELT_TIME = String.raw`(?<h>\d{1,2})(?<hs>${BLANK}?${HOUR_WORD}${AND}?${BLANK})(?<mi>\d{1,2})(?:(?<ms>${BLANK}?(?:${MINUTE_WORD}${AND}?|${AND})${BLANK}?)(?<se>\d{1,2})(?<fr>[.,]\d{1,3})?(?<su>${BLANK}?${SECOND_WORD}(?!\p{L}))?)?`;
/** Hours alone stand right behind the time: `21:42:10+00`. */
const OFFSET = String.raw`(?<of>(?:\s?(?:Z|UTC|GMT|${ZONE_WORDS}|[+-]\d{2}:?\d{2})|[+-]\d{2}(?!\.))(?![\w:]))?`;
const TIME_CJK = String.raw`(?<ap0>(?:午前|午後|上午|下午)\s?)?(?<h>\d{1,2})(?<hs>時|时|点|點)(?<mi>\d{1,2})(?<ms>分)(?:(?<se>\d{1,2})(?<fr>[.,]\d{1,9})?(?<su>秒)?)?`;
/** Hours, minutes and seconds with hyphens, as in names of files; only beside a date. */
const DASHED_TIME = String.raw`(?<h>[012]\d)(?<hs>[-_])(?<mi>[0-5]\d)(?<ms>[-_])(?<se>[0-6]\d)(?<fr>[.,]\d{1,9})?`;
/** Between date and time: a mark, a word such as `at`, `um` or `ore`, a day of the week. */
const BETWEEN = String.raw`(?<gap>[^\d{}]{1,24}?)`;

const DATES: readonly [string, (groups: Groups) => string | null][] = [
  [DATE_YMD, ({ d1 }) => `{year}${d1}{month}${d1}{day}`],
  [DATE_CJK, () => '{year}年{month}月{day}日'],
  [DATE_AB, ({ d1 }) => `{a}${d1}{b}${d1}{year}`],
  [DATE_SPACED, () => '{a}. {b}. {year}'],
  [DATE_ABC, ({ d1 }) => `{a}${d1}{b}${d1}{c}`],
  [DATE_Y_MON_D, ({ s1, s2, mon }) => (isMonth(mon) ? `{year}${s1}{month-name}${s2}{day}` : null)],
  [DATE_OF_YEAR, ({ d1, doy }) => (Number(doy) >= 1 && Number(doy) <= 366 ? `{year}${d1}{day-of-year}` : null)],
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
  shape(
    `${DATE_ERA}(?<gap>\\s?(?:[(（][^\\d()（）]{1,3}[)）])?\\s?)${TIME_CJK}`,
    (groups) => `{era-year}年{month}月{day}日${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`,
  ),
  shape(
    `(?<!\\d)(?<m>\\d{1,2})月(?<d>\\d{1,2})日(?<gap>\\s?(?:[(（][^\\d()（）]{1,3}[)）])?\\s?)${TIME_CJK}`,
    (groups) => `{month}月{day}日${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`,
  ),
  shape(`(?<!\\d)${TIME_CJK}`, timeTokens),
  shape(`(?<![\\d.,:])${SPELT_TIME}`, timeTokens),
  // Digits without any marks: year first, or two-digit parts whose order the proof finds.
  shape(
    '(?<!\\d)(?:19|20)\\d{2}[01]\\d[0-3]\\d[012]\\d[0-5]\\d[0-5]\\d(?<fr>\\d{3})?(?!\\d)',
    ({ fr }) => `{year}{month}{day}{hour}{minute}{second}${fr === undefined ? '' : '{fraction}'}`,
  ),
  shape('(?<!\\d)20\\d{2}[01]\\d[0-3]\\d[012]\\d[0-5]\\d(?!\\d)', () => '{year}{month}{day}{hour}{minute}'),
  shape(
    '(?<!\\d)20\\d{2}[0-3]\\d{2}[012]\\d[0-5]\\d[0-5]\\d(?!\\d)',
    () => '{year}{day-of-year}{hour}{minute}{second}',
  ),
  shape('(?<!\\d)\\d{6}[012]\\d[0-5]\\d[0-5]\\d(?![\\d])', () => '{a}{b}{c}{hour}{minute}{second}'),
  shape('(?<![\\d.,])24[5-7]\\d{4}[.,]\\d{3,12}(?!\\d)', () => '{julian}'),
  shape('(?<![\\d.,])6[01]\\d{3}[.,]\\d{4,12}(?!\\d)', () => '{mjd}'),
  ...DATES.flatMap(([date, build]): Shape[] => [
    shape(`${NO_DIGIT_BEFORE}${date}${BETWEEN}${TIMES}`, (groups) =>
      joined(build(groups), `${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`),
    ),
    shape(`${NO_DIGIT_BEFORE}${date}${BETWEEN}${SPELT_TIME}(?!\\d)`, (groups) =>
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
  // As a shell prints a date: the year behind the zone.
  ...[
    String.raw`(?<mon>\p{L}{3,12}\.?)(?<s1> {1,2})(?<d>\d{1,2})`,
    String.raw`(?<d>\d{1,2})(?<s1>\.? )(?<mon>\p{L}{3,12}\.?)`,
  ].map((date) =>
    shape(
      String.raw`${NO_DIGIT_BEFORE}${date}(?<gap>,? )${TIME}${OFFSET}(?<zone> [A-Z]{2,5})? (?<y>(?:19|20)\d{2})(?!\d)`,
      (groups, text) => (isMonth(groups.mon) ? yearBehind(groups, text) : null),
    ),
  ),
  shape(
    String.raw`${NO_DIGIT_BEFORE}${DATE_YMD}[.,]\d{3,9}(?![\d:])`,
    ({ d1 }) => `{year}${d1}{month}${d1}{day}{day-fraction}`,
  ),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{18}(?!\d)`, () => '{epoch-ns}'),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{15}(?!\d)`, () => '{epoch-us}'),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{12}(?!\d)`, () => '{epoch-ms}'),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{9}(?:[.,]\d{1,9})?(?!\d)`, () => '{epoch}'),
  shape(`${NO_DIGIT_BEFORE}${TIME}${OFFSET}`, timeTokens),
  shape(
    `(?<![\\d.,:/-])(?<doy>[0-3]\\d{2})(?<gap>[/T :-])${TIME}${OFFSET}`,
    (groups) => `{day-of-year}${groups.gap}${timeTokens(groups)}`,
  ),
  // Hours of a night that go on past midnight: `25:10:00`.
  shape(`${NO_DIGIT_BEFORE}(?=(?:2[4-9]|3\\d|4[0-7]):)${TIME}`, nightTokens),
  shape(`${NO_DIGIT_BEFORE}${DATE_YMD}${BETWEEN}(?=(?:2[4-9]|3\\d|4[0-7]):)${TIME}`, (groups) =>
    joined(`{year}${groups.d1}{month}${groups.d1}{day}${groups.gap ?? ''}`, nightTokens(groups)),
  ),
  shape(`${NO_DIGIT_BEFORE}${DOTTED_TIME}(?![\\d.])`, timeTokens),
  shape(String.raw`(?<=^[^\p{L}\d]{0,3}\p{L}?)${COMPACT_TIME}(?![\d.,:])`, timeTokens),
  shape(String.raw`${COUNT_BEFORE}\d{1,12}(?:[.,]\d{1,6})?(?![\d.,:])`, () => '{elapsed}'),
  shape(
    String.raw`${COUNT_BEFORE}\d{1,4}:\d{2}(?::\d{2})?(?:[.,]\d{1,6})?(?![\d.,:]|\s?[AaPp]\.?[Mm]\b)`,
    () => '{elapsed}',
  ),
  shape(
    String.raw`${COUNT_BEFORE}(?:\d{1,3}\s?h\s?)?\d{1,4}\s?m(?:in|n)?\.?\s?\d{1,2}(?:[.,]\d{1,3})?\s?s(?:ec|ek)?(?![\p{L}\d])`,
    () => '{elapsed-spelt}',
  ),
];

/** Only the beginning of a line is searched for its stamp. */
const SEARCHED = 160;

/** A count at the very end of a line. */
const COUNT_AT_END = /(?<![\p{L}\d.,:-])(?:\d{1,4}:)?(?:\d{1,2}:\d{2}|\d{1,12})(?:[.,]\d{1,6})?$/u;

/** Every way to read a time that is the last thing in a line, marks behind it left out. */
export function stampsAtEnd(line: string): FoundStamp[] {
  const from = Math.max(0, line.length - TAIL);
  const tail = line.slice(from).trimEnd();
  const inner = tail.replace(/[^\p{L}\d]{1,3}$/u, '');
  const count = COUNT_AT_END.exec(inner);
  const found = SHAPES.flatMap((one) => lastMatch(one, inner) ?? []);
  const counts = count === null ? [] : [{ start: count.index, end: inner.length, pattern: '{elapsed}' }];
  return [...found, ...counts].map(({ start, end, pattern }) => ({ start: start + from, end: end + from, pattern }));
}

/** Characters at the end of a line in which its stamp may stand. */
const TAIL = 60;

function lastMatch({ regExp, build }: Shape, text: string): FoundStamp | null {
  regExp.lastIndex = 0;
  for (const match of text.matchAll(regExp)) {
    const end = match.index + match[0].length;
    const pattern = end === text.length ? build(match.groups ?? {}, match[0]) : null;
    if (pattern !== null && !pattern.includes('{elapsed')) return { start: match.index, end, pattern };
  }
  return null;
}

function nightTokens(groups: Groups): string {
  return timeTokens(groups).replace('{hour}', '{night-hour}');
}

/** Every way to read a time at the place where each shape first stands in a line. */
export function stampsIn(line: string): FoundStamp[] {
  const head = line.slice(0, SEARCHED);
  return SHAPES.flatMap((one) => matched(one, head) ?? []);
}

function yearBehind(groups: Groups, text: string): string {
  const { s1 = ' ', gap = ' ', zone } = groups;
  const date = /^\d/.test(text) ? `{day}${s1}{month-name}` : `{month-name}${s1}{day}`;
  return `${date}${gap}${timeTokens(groups)}${zone === undefined ? '' : ' {skip}'} {year}`;
}

function timeTokens(groups: Groups): string {
  const offset = groups.of === undefined ? '' : `${/^\s/.test(groups.of) ? ' ' : ''}{offset}`;
  if (groups.ch !== undefined) return `{hour}{minute}{second}${offset}`;
  const half = groups.ap === undefined ? '' : `${/^\s/.test(groups.ap) ? ' ' : ''}{am-pm}`;
  const before = groups.ap0 === undefined ? '' : `{am-pm}${/\s$/.test(groups.ap0) ? ' ' : ''}`;
  const seconds =
    groups.ms === undefined
      ? ''
      : `${groups.ms}${groups.se === undefined ? '' : `{second}${groups.fc === undefined ? '' : ':{fraction}'}${groups.su ?? ''}`}`;
  return `${before}{hour${half + before === '' ? '' : '12'}}${groups.hs}{minute}${seconds}${half}${offset}`;
}
