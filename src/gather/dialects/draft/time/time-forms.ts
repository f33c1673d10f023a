import { PART_BEFORE, PART_BEHIND } from '../../time/day-parts.js';
import { ZONE_WORDS } from '../../time/offsets.js';
import { type Groups, Part } from './shape.js';

/** `21:02:03`, `9:02 PM`, `21h02m03s`, `21h02'03` */
export const TIME = String.raw`(?<ap0>(?:${PART_BEFORE})\s?)?(?<h>\d{1,2})(?<hs>[:h]|時|时|点|點)(?<mi>\d{2})(?:(?<ms>[:m]|分|(?<=\dh\d{2})['′’](?=\d{2}))(?:(?<se>\d{2})(?<fr>[.,]\d{1,9}|(?<fc>:)\d{3}(?!\d))?(?<su>s(?![a-z])|秒|(?<=\dh\d{2}['′’]\d{2})["″])?)?)?(?<ap>${PART_BEHIND})?`;
export const DOTTED_TIME = String.raw`(?<h>[012]?\d)(?<hs>\.)(?<mi>[0-5]\d)(?<ms>\.)(?<se>[0-5]\d)(?<fr>[.,]\d{1,9})?(?<ap>${PART_BEHIND})?`;
export const COMPACT_TIME = String.raw`(?<ch>[012]\d)(?<cm>[0-5]\d)(?<cs>[0-6]\d)(?<cf>[.,]\d{1,9})?`;
/** `1802:40`, `1802.40Z`, `1802Z`: hours and minutes run together, as in a ship's log; `1802.40` is a number. */
export const RUN_TOGETHER = String.raw`(?<rh>[012]\d)(?<mi>[0-5]\d)(?:(?<ms>:|\.(?=\d{2}(?:[.,]\d{1,9})?\s?[Zz]))(?<se>[0-5]\d)(?<fr>[.,]\d{1,9})?(?![\d:])|(?=\s?[Zz]\b))`;
/** `2104` behind a date: hours and minutes alone, and no count of anything. */
export const FOUR_DIGITS = String.raw`(?<rh>[012]\d)(?<mi>[0-5]\d)(?![\d:]|[.,]\d|[-/]|\s?(?:mm|px|s|ms|sec|steps?|°|%|["″'′]))`;
export const HAS_FOUR_DIGITS = new Part(String.raw`\d\D{1,12}[012]\d[0-5]\d(?!\d)`);
const BLANK = String.raw`[\s\u00a0\u202f]`;
const AND = `(?:,|${BLANK}(?:et|and|und|y|e|en|i|a))`;
const HOUR_WORD = String.raw`(?:[Hh]|[Hh]rs?|[Hh]ours?|[Uu]hr|[Ss]tunden?|[Hh]eures?|[Hh]oras?|[Oo]r[ae]|[Uu]ur|[Gg]odz\p{L}*|[Hh]od\p{L}*)\.?`;
const MINUTE_WORD = String.raw`(?:m|mn|[Mm]in(?:ut\p{L}*)?)\.?`;
const SECOND_WORD = String.raw`(?:s|[Ss][eé][ckg]\p{L}*|vteř\p{L}*)\.?`;
/** `20 h 04 min 02 s`, `19 h 28 et 22 secondes`: words for the units, with any kind of blank inside. */
export const SPELT_TIME = String.raw`(?<h>\d{1,2})(?<hs>${BLANK}?${HOUR_WORD}${AND}?${BLANK})(?<mi>\d{1,2})(?:(?<ms>${BLANK}?(?:${MINUTE_WORD}${AND}?|${AND})${BLANK}?)(?<se>\d{1,2})(?<fr>[.,]\d{1,3})?(?<su>${BLANK}?${SECOND_WORD}(?!\p{L}))?)?(?<ap>${PART_BEHIND})?`;
/** Hours alone follow the time directly: `21:42:10+00`. */
export const OFFSET = String.raw`(?<of>(?:\s?(?:[Zz]|UTC|GMT|${ZONE_WORDS}|[+-]\d{2}:?\d{2})|[+-]\d{2}(?!\.))(?!\w|:\d))?`;
export const TIME_CJK = String.raw`(?<ap0>(?:${PART_BEFORE})\s?)?(?<h>\d{1,2})(?<hs>時|时|点|點|시 ?)(?<mi>\d{1,2})(?<ms>分|분 ?(?=\d)|분)(?:(?<se>\d{1,2})(?<fr>[.,]\d{1,9})?(?<su>秒|초)?)?`;
/** Hours, minutes and seconds with hyphens, as in file names; only next to a date. */
export const DASHED_TIME = String.raw`(?<h>[012]\d)(?<hs>[-_])(?<mi>[0-5]\d)(?<ms>[-_])(?<se>[0-6]\d)(?<fr>[.,]\d{1,9})?`;
/** `ore 18.50`, `18.50 Uhr`: hours and minutes alone with a point between, which is a number without such a word. */
export const DOTTED_MINUTES = String.raw`(?:(?<=(?:^|[^\p{L}])(?:ore|alle|um|at|kl\.?|klo|às|as|las|om)${BLANK})|(?=\d{1,2}\.\d{2}${BLANK}(?:Uhr|uur)(?!\p{L})))(?<h>[012]?\d)(?<hs>\.)(?<mi>[0-5]\d)(?![\d.,]*\d)`;
/** Contained in every time of a form, at lower cost than matching the whole form. */
export const HAS_TIME = new Part(String.raw`\d[:h時时点點]\d{2}`);
export const HAS_CJK = new Part('[時时点點시]');
export const HAS_SPELT = new Part(String.raw`\d${BLANK}?${HOUR_WORD}${AND}?${BLANK}\d`);
export const HAS_DASHED = new Part(String.raw`\d[-_][0-5]\d[-_][0-6]\d`);
export const HAS_DOTTED_MINUTES = new Part(String.raw`\d\.[0-5]\d(?!\d)`);
export const HAS_DOTTED = new Part(String.raw`\d\.[0-5]\d\.[0-5]\d`);
export const HAS_RUN_TOGETHER = new Part(String.raw`\d{4}(?:[:.]\d{2}|\s?[Zz])`);
export const HAS_TIMES = new Part(String.raw`\d[:h時时点點]\d{2}|\d{6}`);
export const HAS_SIX_DIGITS = new Part(String.raw`\d{6}`);
export const HAS_TEN_DIGITS = new Part(String.raw`\d{10}`);

/** The placeholders of a time that has one of these forms. */
export function timeTokens(groups: Groups): string {
  const offset = groups.of === undefined ? '' : `${/^\s/.test(groups.of) ? ' ' : ''}{offset}`;
  if (groups.ch !== undefined) return `{hour}{minute}{second}${offset}`;
  if (groups.rh !== undefined) return `{hour}{minute}${groups.ms === undefined ? '' : `${groups.ms}{second}`}${offset}`;
  const half = groups.ap === undefined ? '' : `${/^\s/.test(groups.ap) ? ' ' : ''}{am-pm}`;
  const before = groups.ap0 === undefined ? '' : `{am-pm}${/\s$/.test(groups.ap0) ? ' ' : ''}`;
  const seconds =
    groups.ms === undefined
      ? ''
      : `${groups.ms}${groups.se === undefined ? '' : `{second}${groups.fc === undefined ? '' : ':{fraction}'}${groups.su ?? ''}`}`;
  return `${before}{hour${half + before === '' ? '' : '12'}}${groups.hs}{minute}${seconds}${half}${offset}`;
}

/** The same with hours past midnight. */
export function nightTokens(groups: Groups): string {
  return timeTokens(groups).replace('{hour}', '{night-hour}');
}

/** Hours and minutes with a fraction, `21:42.17`, `21h42.17m`: minutes and seconds without a date or a letter. */
export const DECIMAL_MINUTES = String.raw`(?<h>[012]?\d)(?<hs>[:h]|\s?h\s)(?<mi>[0-5]\d[.,]\d{1,5})(?<mm>\s?(?:m(?:in)?|['′])(?!\p{L}))?(?![\d:.,])`;
export const HAS_DECIMAL_MINUTES = new Part(String.raw`\dh?[:\s]?[0-5]\d[.,]\d`);

/** The placeholders of such a time. */
export function decimalMinuteTokens({ hs = ':', mm = '' }: Groups): string {
  return `{hour}${hs}{decimal-minute}${mm}`;
}
