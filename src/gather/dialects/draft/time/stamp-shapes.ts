import { DATE_CJK, DATE_ERA, NO_DIGIT_BEFORE } from './date-forms.js';
import { BETWEEN, DATES, partOf } from './dates.js';
import { OF_DAY } from './of-day.js';
import { Forms, type FoundStamp, type Groups, isMonth, joined, matched, Part, shape, type Shape } from './shape.js';
import { Remembered } from './remembered.js';
import {
  COMPACT_TIME,
  DECIMAL_MINUTES,
  decimalMinuteTokens,
  HAS_DECIMAL_MINUTES,
  DASHED_TIME,
  DOTTED_MINUTES,
  DOTTED_TIME,
  FOUR_DIGITS,
  HAS_CJK,
  HAS_DASHED,
  HAS_DOTTED,
  HAS_DOTTED_MINUTES,
  HAS_FOUR_DIGITS,
  HAS_RUN_TOGETHER,
  HAS_SIX_DIGITS,
  HAS_SPELT,
  HAS_TEN_DIGITS,
  HAS_TIME,
  HAS_TIMES,
  OFFSET,
  RUN_TOGETHER,
  SPELT_TIME,
  TIME,
  TIME_CJK,
  nightTokens,
  timeTokens,
} from './time-forms.js';
import { COUNTS } from './count-shapes.js';
import { DECIMAL_DAYS } from './decimal-days.js';
import { MJD_DAY, SERIAL_DAYS } from './serial-days.js';
import { withoutSidereal } from './sidereal.js';
import { withWeekdays } from './weekdays.js';

/** Contained in every date with the year after the time. */
const HAS_YEAR_BEHIND = new Part(String.raw` (?:19|20)\d{2}(?!\d)`);

/** Contained in every time with hours that continue past midnight. */
const HAS_LATE = new Part(String.raw`(?<!\d)(?:2[4-9]|3\d|4[0-7])[:h]\d{2}`);

const HAS_YEAR = /year|\{c\}|week-date/;

const TIMES = `(?:${COMPACT_TIME}(?!\\d)|${TIME})${OFFSET}`;

/** Times of day, dates and counts since a fixed instant. */
const INSTANTS: readonly Shape[] = [
  shape(
    `(?<!\\d)${DATE_CJK}(?<gap>\\s?(?:[(（][^\\d()（）]{1,3}[)）])?\\s?)${TIME_CJK}`,
    (groups) =>
      `{year}${groups.d1}{month}${groups.d2}{day}${groups.d3}${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`,
    [HAS_CJK],
  ),
  shape(
    `${DATE_ERA}(?<gap>\\s?(?:[(（][^\\d()（）]{1,3}[)）])?\\s?)${TIME_CJK}`,
    (groups) => `{era-year}年{month}月{day}日${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`,
    [HAS_CJK],
  ),
  shape(
    `(?<!\\d)(?<m>\\d{1,2})(?<d2>月|월 ?)(?<d>\\d{1,2})(?<d3>[日일])(?<gap>\\s?(?:[(（][^\\d()（）]{1,3}[)）])?\\s?)${TIME_CJK}`,
    (groups) => `{month}${groups.d2}{day}${groups.d3}${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`,
    [HAS_CJK],
  ),
  shape(
    `(?<!\\d)(?<m>\\d{1,2})月 ?(?<d>\\d{1,2})日(?<gap>\\s?(?:[(（]?[^\\d()（）\\s]{1,3}[)）]?\\s)?)${TIME}${OFFSET}`,
    (groups, text) =>
      `{month}月${text.includes('月 ') ? ' ' : ''}{day}日${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`,
    [HAS_TIME],
  ),
  shape(`(?<!\\d)${TIME_CJK}`, timeTokens, [HAS_CJK]),
  shape(`(?<![\\d.,:])${SPELT_TIME}`, timeTokens, [HAS_SPELT]),
  // Digits without separators: year first, or two-digit parts whose order is found by testing.
  shape(
    '(?<!\\d)(?:19|20)\\d{2}[01]\\d[0-3]\\d[012]\\d[0-5]\\d[0-5]\\d(?<fr>\\d{3})?(?!\\d)',
    ({ fr }) => `{year}{month}{day}{hour}{minute}{second}${fr === undefined ? '' : '{fraction}'}`,
    [HAS_TEN_DIGITS],
  ),
  shape('(?<!\\d)20\\d{2}[01]\\d[0-3]\\d[012]\\d[0-5]\\d(?!\\d)', () => '{year}{month}{day}{hour}{minute}', [
    HAS_TEN_DIGITS,
  ]),
  shape(
    '(?<!\\d)20\\d{2}[0-3]\\d{2}[012]\\d[0-5]\\d[0-5]\\d(?!\\d)',
    () => '{year}{day-of-year}{hour}{minute}{second}',
    [HAS_TEN_DIGITS],
  ),
  shape('(?<!\\d)\\d{6}[012]\\d[0-5]\\d[0-5]\\d(?![\\d])', () => '{a}{b}{c}{hour}{minute}{second}', [HAS_TEN_DIGITS]),
  shape('(?<![\\d.,])24[5-7]\\d{4}[.,]\\d{3,12}(?!\\d)', () => '{julian}'),
  shape(String.raw`(?<![\d.,])${MJD_DAY}[.,]\d{4,12}(?!\d)`, () => '{mjd}'),
  ...SERIAL_DAYS,
  ...DATES.flatMap(([date, build]): Shape[] => {
    const hasDate = partOf(date);
    const before = (groups: Groups): string | null =>
      joined(build(groups), `${withWeekdays(groups.gap ?? '')}${timeTokens(groups)}`);
    return [
      shape(`${NO_DIGIT_BEFORE}${date}${BETWEEN}${TIMES}`, before, [HAS_TIMES, hasDate]),
      shape(`${NO_DIGIT_BEFORE}${date}${BETWEEN}${SPELT_TIME}(?!\\d)`, before, [HAS_SPELT, hasDate]),
      shape(
        `${NO_DIGIT_BEFORE}${date}(?<gap>[T_ -]{1,3})${DASHED_TIME}(?!\\d)`,
        (groups) => joined(build(groups), `${groups.gap}${timeTokens(groups)}`),
        [HAS_DASHED, hasDate],
      ),
      shape(`${NO_DIGIT_BEFORE}${date}${BETWEEN}${DOTTED_TIME}(?![\\d.])`, before, [HAS_DOTTED, hasDate]),
      shape(`${NO_DIGIT_BEFORE}${date}${BETWEEN}${DOTTED_MINUTES}`, before, [HAS_DOTTED_MINUTES, hasDate]),
      shape(
        `${NO_DIGIT_BEFORE}${date}(?<gap>[^\\d{}.,+/:-]{1,12}?)${FOUR_DIGITS}`,
        (groups) => (HAS_YEAR.test(build(groups) ?? '') ? before(groups) : null),
        [HAS_FOUR_DIGITS, hasDate],
      ),
      shape(
        `${NO_DIGIT_BEFORE}${TIME}(?<gap>[^\\d{}]{1,24}?)${date}`,
        (groups) => {
          const built = build(groups);
          return built === null ? null : `${timeTokens(groups)}${withWeekdays(groups.gap ?? '')}${built}`;
        },
        [HAS_TIME, hasDate],
      ),
    ];
  }),
  ...DATES.map(([date, build]) =>
    shape(
      `${NO_DIGIT_BEFORE}${date}${BETWEEN}${DECIMAL_MINUTES}`,
      (groups) => joined(build(groups), `${withWeekdays(groups.gap ?? '')}${decimalMinuteTokens(groups)}`),
      [HAS_DECIMAL_MINUTES, partOf(date)],
    ),
  ),
  shape(`${NO_DIGIT_BEFORE}${DECIMAL_MINUTES}`, (groups) => (groups.hs === ':' ? null : decimalMinuteTokens(groups)), [
    HAS_DECIMAL_MINUTES,
  ]),
  ...DECIMAL_DAYS,
  // As printed by a shell: the year after the zone.
  ...[
    String.raw`(?<mon>\p{L}{3,12}\.?)(?<s1> {1,2})(?<d>\d{1,2})`,
    String.raw`(?<d>\d{1,2})(?<s1>\.? )(?<mon>\p{L}{3,12}\.?)`,
  ].map((date) =>
    shape(
      String.raw`${NO_DIGIT_BEFORE}${date}(?<gap>,? )${TIME}${OFFSET}(?<zone> [A-Z]{2,5})? (?<y>(?:19|20)\d{2})(?!\d)`,
      (groups, text) => (isMonth(groups.mon) ? yearBehind(groups, text) : null),
      [HAS_TIME, HAS_YEAR_BEHIND],
    ),
  ),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{18}(?!\d)`, () => '{epoch-ns}', [HAS_TEN_DIGITS]),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{15}(?!\d)`, () => '{epoch-us}', [HAS_TEN_DIGITS]),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{12}(?!\d)`, () => '{epoch-ms}', [HAS_TEN_DIGITS]),
  shape(String.raw`${NO_DIGIT_BEFORE}1\d{9}(?:[.,]\d{1,9})?(?!\d)`, () => '{epoch}', [HAS_TEN_DIGITS]),
  shape(`${NO_DIGIT_BEFORE}${TIME}${OFFSET}`, timeTokens, [HAS_TIME]),
  shape(
    `(?<![\\d.,:/-])(?<doy>[0-3]\\d{2})(?<gap>[/T :-])${TIME}${OFFSET}`,
    (groups) => `{day-of-year}${groups.gap}${timeTokens(groups)}`,
    [HAS_TIME],
  ),
  // Hours that continue past midnight: `25:10:00`.
  shape(`${NO_DIGIT_BEFORE}(?=(?:2[4-9]|3\\d|4[0-7])[:h])${TIME}`, nightTokens, [HAS_TIME]),
  shape(`(?<!\\d)(?=(?:2[4-9]|3\\d)[時时点點시])${TIME_CJK}`, nightTokens, [HAS_CJK]),
  ...DATES.map(([date, build]) =>
    shape(
      `${NO_DIGIT_BEFORE}${date}${BETWEEN}(?=(?:2[4-9]|3\\d|4[0-7])[:h])${TIME}`,
      (groups) => joined(build(groups), `${withWeekdays(groups.gap ?? '')}${nightTokens(groups)}`),
      [HAS_LATE, partOf(date)],
    ),
  ),
  shape(`${NO_DIGIT_BEFORE}${DOTTED_TIME}(?![\\d.])`, timeTokens, [HAS_DOTTED]),
  shape(DOTTED_MINUTES, timeTokens, [HAS_DOTTED_MINUTES]),
  shape(`(?<![\\p{L}\\d.,:/-])${RUN_TOGETHER}${OFFSET}(?![\\p{L}\\d])`, timeTokens, [HAS_RUN_TOGETHER]),
  shape(
    String.raw`(?=\d)(?<=^[^\p{L}\d]{0,3}\p{L}?)${COMPACT_TIME}${OFFSET}(?![\d.,:]|[a-f\d]+(?![\p{L}\d]))`,
    timeTokens,
    [HAS_SIX_DIGITS],
  ),
  ...OF_DAY,
];

// Apart from one another: fewer combinations of parts.
const OF_INSTANTS = new Forms(INSTANTS);
const OF_COUNTS = new Forms(COUNTS);

/** Only the beginning of a line is searched for its stamp. */
const SEARCHED = 160;

/** A count at the very end of a line. */
const COUNT_AT_END = /(?<![\p{L}\d.,:-])(?:\d{1,4}:)?(?:\d{1,2}:\d{2}|\d{1,12})(?:[.,]\d{1,6})?$/u;

/** All readings of a time at the end of a line, ignoring trailing marks. */
export function stampsAtEnd(line: string): readonly FoundStamp[] {
  const from = Math.max(0, line.length - TAIL);
  const found = endings.of(line.slice(from));
  return from === 0 || found.length === 0
    ? found
    : found.map(({ start, end, pattern }) => ({ start: start + from, end: end + from, pattern }));
}

/** The same of the end of a line. */
const endings = new Remembered((end: string): readonly FoundStamp[] => {
  const inner = end.trimEnd().replace(/[^\p{L}\d]{1,3}$/u, '');
  if (!DIGIT.test(inner)) return [];
  const found = eachIn([OF_INSTANTS], withoutSidereal(inner), lastMatch);
  const count = COUNT_AT_END.exec(inner);
  if (count !== null) found.push({ start: count.index, end: inner.length, pattern: '{elapsed}' });
  return found;
});

/** Every time contains one. */
const DIGIT = /\d/;

/** The matches of all forms in a text, in order. */
function eachIn(lists: readonly Forms[], text: string, search: typeof matched): FoundStamp[] {
  const all: FoundStamp[] = [];
  for (const forms of lists) {
    for (const form of forms.mayBeIn(text)) {
      const found = search(form, text);
      if (found !== null) all.push(found);
    }
  }
  return all;
}

/** Number of characters at the end of a line that may contain its stamp. */
const TAIL = 60;

function lastMatch({ regExp, build }: Shape, text: string): FoundStamp | null {
  regExp.lastIndex = 0;
  for (let match = regExp.exec(text); match !== null; match = regExp.exec(text)) {
    const end = match.index + match[0].length;
    const pattern = end === text.length ? build(match.groups ?? {}, match[0]) : null;
    if (pattern !== null) return { start: match.index, end, pattern };
  }
  return null;
}

/** All readings of a time at the first position of each shape in a line. */
export function stampsIn(line: string): readonly FoundStamp[] {
  return beginnings.of(line.slice(0, SEARCHED));
}

const beginnings = new Remembered((head: string): readonly FoundStamp[] =>
  DIGIT.test(head) ? eachIn([OF_INSTANTS, OF_COUNTS], withoutSidereal(head), matched) : [],
);

function yearBehind(groups: Groups, text: string): string {
  const { s1 = ' ', gap = ' ', zone } = groups;
  const date = /^\d/.test(text) ? `{day}${s1}{month-name}` : `{month-name}${s1}{day}`;
  return `${date}${gap}${timeTokens(groups)}${zone === undefined ? '' : ' {skip}'} {year}`;
}
