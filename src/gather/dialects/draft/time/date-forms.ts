/** A month by its name, or before a year by its Roman numeral: `18 IX 2026`, as in Poland and Hungary. */
export const MONTH_NAME = String.raw`(?:\p{L}{3,12}\.?|[IVX]{1,4}(?=[ ./-](?:19|20)\d{2})\.?)`;
/** `2026-10-14` */
export const DATE_YMD = String.raw`(?<y>(?:19|20)\d{2})(?<d1>[-/.])(?<m>\d{1,2})\k<d1>(?<d>\d{1,2})`;
/** 2026年10月14日, 2026년 10월 14일, with or without blanks */
export const DATE_CJK = String.raw`(?<y>(?:19|20)\d{2})(?<d1>[年년] ?)(?<m>\d{1,2})(?<d2>[月월] ?)(?<d>\d{1,2})(?<d3>[日일])`;
/** `2026 Oct 14` */
export const DATE_Y_MON_D = String.raw`(?<y>(?:19|20)\d{2})(?<s1>\. |[-/. ])(?<mon>\p{L}{3,12}\.?)(?<s2>[-/. ])(?<d>\d{1,2})`;
/** The second mark of a date: as the first, or the stroke of `14/10-2026`, as in Denmark and Norway. */
const SECOND_MARK = String.raw`(?<d2>\k<d1>|(?<=/\d{1,2})-)`;
/** `14.10.2026`, `14/10-2026`, or the month first */
export const DATE_AB = String.raw`(?<a>\d{1,2})(?<d1>[-/.])(?<b>\d{1,2})${SECOND_MARK}(?<y4>\d{4})`;
/** `14.10.26`, `14/10-26`, in any order */
export const DATE_ABC = String.raw`(?<a>\d{1,2})(?<d1>[-/.])(?<b>\d{1,2})${SECOND_MARK}(?<c>\d{2})(?![\d])`;
/** `20261014` */
export const COMPACT_DATE = String.raw`(?<y>(?:19|20)\d{2})(?<m>[01]\d)(?<d>[0-3]\d)`;
/** `261014`, before six or four digits of a time */
export const COMPACT_ABC = String.raw`(?<a>\d{2})(?<d1>)(?<b>\d{2})(?<c>\d{2})(?=[T_ -](?:\d{6}|[012]\d[0-5]\d(?!\d)))`;
/** Numbers of a date separated by points and blanks: `22. 10. 2026`. */
export const DATE_SPACED = String.raw`(?<a>\d{1,2})\. (?<b>\d{1,2})\. (?<y4>\d{4})`;
/** Without a year: it is in a header line, or in the file name. */
export const DATE_MD = String.raw`(?<!\d[-/.])(?<a>\d{1,2})(?<d1>[-/.])(?<b>\d{1,2})`;
/** `14 October`, `14 de octubre de 2026` */
export const DATE_D_MON = String.raw`(?<d>\d{1,2})(?<s1>\.(?=[IVX])|(?:\.|º|er|st|nd|rd|th)?(?: de | of | d['’]|[ /-]))(?<mon>${MONTH_NAME})(?:(?<s2>(?<=\.)|,?(?: de | del |[ /-]))(?<y>(?:19|20)\d{2}))?`;
/** `14-Oct-26` */
export const DATE_D_MON_Y2 = String.raw`(?<d>\d{1,2})(?<s1>[-/. ])(?<mon>\p{L}{3,12})\k<s1>(?<y2>\d{2})(?![\d:])`;
/** `October 14th, 2026` */
export const DATE_MON_D = String.raw`(?<!\p{L})(?<mon>\p{L}{3,12}\.?)(?<s1> {1,2}|[/-])(?<d>\d{1,2})(?:(?<s2>(?:st|nd|rd|th)?,? |[/-])(?<y>(?:19|20)\d{2}))?`;
/**
 * The number is not part of a longer one; a name and a colon may directly precede it, `time:2026-10-14`, `begin
 * (UTC):2026-10-14`.
 */
export const NO_DIGIT_BEFORE = String.raw`(?<![\d.,]|[^\p{L})\]"]:)`;
/** The same for a date alone: a table cell ends at the comma before it, `night,2026-10-14`. */
export const NO_NUMBER_BEFORE = String.raw`(?<![\d.]|\d,|[^\p{L})\]"]:)`;
/** `2026-287`, `2026287`: the day of the year; behind a colon it is part of a time, `21:42:26.123` */
export const DATE_OF_YEAR = String.raw`(?<!:)(?<y>20\d{2})(?<d1>[-/.:]?)(?<doy>[0-3]\d{2})(?!\d)`;
/** `26287`, `26-287`: the day of the year after a two-digit year */
export const DATE_OF_YEAR2 = String.raw`(?<!:)(?<y2>[2-4]\d)(?<d1>[-/.:]?)(?<doy>[0-3]\d{2})(?!\d)`;
/** 令和8年10月14日: the year of an era */
export const DATE_ERA = String.raw`(?:令和|平成|昭和|民[國国])\s?(?:元|\d{1,3})年(?<m>\d{1,2})月(?<d>\d{1,2})日`;
/** `2026-W42-3`, `2026W423`, or with a letter of another language: the day of a week (ISO 8601) */
export const DATE_WEEK = String.raw`(?<y>(?:19|20)\d{2})-?(?:W|w|KW|v|V|S|s|U|u)(?<w>[0-5]\d)-?[1-7](?!\d)`;
