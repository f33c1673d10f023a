import { PART_BEFORE } from '../../time/day-parts.js';

/** The type of a value in a line, judged by its format. */
export type ValueType = 'number' | 'clock' | 'file' | 'designation' | 'filter' | 'text';

const FILE = /\.(?:fits?|fts|fz|tiff?|raw|png|ser)(?:\.(?:gz|fz))?$/i;
const DESIGNATION = /^(?:NGC|IC|UGC|PGC|LDN|LBN|Sh-?2|Arp|Abell|Barnard|vdB|Messier|Caldwell|[MC])[ _-]?\d+[^;,|]*$/i;
/** A duration after other words: no object name contains one. */
const WITH_LENGTH = /[\s(,x×*]\d+(?:[.,]\d+)?\s?(?:s(?:ec\p{L}*)?|秒|초)(?![\p{L}\d])/iu;
const FILTER =
  /^(?:[LRGBC]|Lum|Luminance|Red|Green|Blue|Clear|H-?(?:a|α|alpha)|H-?(?:b|β|beta)|O-?(?:III|3)|S-?(?:II|2)|N-?(?:II|2)|UV\/?IR)$/i;
/** The date before a time of day: with its year, or day and month alone where the year is elsewhere. */
const CLOCK =
  /^\+?(?:\d{1,4}[-./]\d{1,2}[-./]\d{2,4}[T ]\s?|\d{1,2}(?:[-/]\d{1,2}|\.\s?\d{1,2}\.)\s(?=\d{1,2}[:.h]\d{2}))?\d{1,2}(?:[:h]\d{2}(?:[:m]\d{2}(?:[.,]\d+)?)?|\.\d{2}\.\d{2}(?:,\d+)?)s?(?:\s?[ap]\.?m\b\.?|Z|[+-]\d{2}(?::?\d{2})?)?$/i;
/** Hours, minutes and seconds with units: `20 h 04 min 02 s`, 午後8時44分29秒. */
const SPELT_CLOCK = new RegExp(
  String.raw`^\d{1,2}\s?h\s?\d{2}(?:\s?m(?:in|n)?\.?\s?\d{1,2}(?:,\d+)?(?:\s?s)?)?$|` +
    String.raw`^(?:${PART_BEFORE})?\d{1,2}[時时点點]\d{1,2}分(?:\d{1,2}(?:[.,]\d+)?秒)?$|^(?:(?:${PART_BEFORE})\s?)?\d{1,2}시\s?\d{1,2}분(?:\s?\d{1,2}(?:[.,]\d+)?초)?$`,
  'u',
);
/** After the day of the year, or digits with only a `T` between: `045/18:30:00.39`, `20261014T214410Z`. */
const OTHER_CLOCK =
  /^(?:20\d{2}[-/.:]?)?[0-3]\d{2}[/T :.-]\d{1,2}[:.]\d{2}[:.]\d{2}(?:[.,]\d+)?Z?$|^20\d{6}[T_]\d{6}(?:[.,]\d+)?(?:Z|[+-]\d{2}(?::?\d{2})?)?$/;
/** Seconds, milli-, micro- or nanoseconds since 1970, for the years 2017 to 2033. */
const EPOCH = /^1[5-9]\d{8}(?:[.,]\d+|(?:\d{3}){1,3})?$/;
/** A Julian date, or a modified one, with at least four decimals. */
const JULIAN = /^(?:24[5-7]\d{4}|6[01]\d{3})[.,]\d{4,12}$/;
const NUMBER = /^[-+\u2212]?\d+(?:[.,]\d+)?$/;

/** The name of a frame file. */
export function isFrameFile(text: string): boolean {
  return FILE.test(text);
}

/** Words before a file name, or a list that ends in one: `saved wren_001.fits`, `Ha; 300 s; wren_001.fits`. */
const MORE_THAN_NAME = /^\p{Ll}[\p{Ll}\d]* |[;,:|]\s/u;

/** A filter by one of its common names, with common capitalisation. */
export function isFilterName(text: string): boolean {
  return FILTER.test(text) && (text.length > 1 || text === text.toUpperCase());
}

/** A duration with several units: `9 min 00.2 s`, `1h2m3s`, `350ms`. */
const SPAN =
  /^(?:(\d+)\s?h\p{L}*\.?\s?)?(?:(\d+)\s?(?:m|mn|min\p{L}*)\.?\s?)?(?:(\d+(?:[.,]\d+)?)\s?s\p{L}*\.?)?(?:(\d+(?:\.\d+)?)\s?ms)?$/u;

/** The same as ISO 8601 writes it: `PT1H2M3.5S`, `PT360S`. */
const ISO_SPAN = /^PT(?=\d)(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:[.,]\d+)?)S)?$/;

/** Whether the text is a duration in hours or minutes and smaller units, or one of ISO 8601. */
export function isSpan(text: string): boolean {
  if (ISO_SPAN.test(text)) return true;
  const [whole = '', hours, minutes] = SPAN.exec(text) ?? [];
  // `20 h 04 min 02 s` is a time of day.
  return whole !== '' && (hours !== undefined || minutes !== undefined) && !SPELT_CLOCK.test(text);
}

/** Whether the text is a duration with units, also with seconds alone. */
export function isSpeltLength(text: string): boolean {
  return (text !== '' && SPAN.test(text) && !SPELT_CLOCK.test(text)) || ISO_SPAN.test(text);
}

function spanSeconds(text: string): number {
  const [, hours = '0', minutes = '0', seconds = '0', milliseconds = '0'] =
    ISO_SPAN.exec(text) ?? SPAN.exec(text) ?? [];
  return Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds.replace(',', '.')) + Number(milliseconds) / 1000;
}

/** Whether the text is a number, with a decimal point or comma. */
export function isNumber(text: string): boolean {
  return NUMBER.test(text);
}

/** The common type of these values; `text` when they differ. */
export function typeOf(values: readonly string[]): ValueType {
  const all = (test: (value: string) => boolean): boolean => values.length > 0 && values.every(test);
  if (all((value) => EPOCH.test(value))) return 'clock';
  if (all(isNumber)) return 'number';
  if (values.some(isSpan) && all(isSpeltLength)) return 'number';
  if (all((value) => CLOCK.test(value) || SPELT_CLOCK.test(value) || OTHER_CLOCK.test(value))) return 'clock';
  if (all((value) => isFrameFile(value) && !MORE_THAN_NAME.test(value))) return 'file';
  if (all((value) => DESIGNATION.test(value) && !WITH_LENGTH.test(value))) return 'designation';
  if (all(isFilterName)) return 'filter';
  return 'text';
}

/** The common type of values in a sentence, where a Julian date is a time. */
export function typeInText(values: readonly string[]): ValueType {
  return values.length > 0 && values.every((value) => JULIAN.test(value)) ? 'clock' : typeOf(values);
}

/** The value as a number, a duration in seconds; NaN when it is none. */
export function numberIn(text: string | undefined): number {
  if (text !== undefined && /[hms]/i.test(text) && isSpeltLength(text)) return spanSeconds(text);
  return text !== undefined && isNumber(text) ? Number(text.replace(',', '.').replace('\u2212', '-')) : NaN;
}

/** Whether each number is the previous one plus one: line or frame numbers. */
export function isCount(numbers: readonly number[]): boolean {
  return numbers.length > 2 && numbers.every((value, i) => i === 0 || value === (numbers[i - 1] ?? NaN) + 1);
}
