import { Part, shape, type Shape } from './shape.js';

/** Text at the beginning of a line that may stand before a counter, and what must follow it. */
interface Before {
  readonly text: string;
  readonly next: string;
}

/** Blanks, marks, a name such as `T+` or `t=`, the priority of the message as in `<6>[   12.345]`. */
const BEFORE_COUNT: Before = {
  text: String.raw`\s*(?:<\d{1,3}>)?(?:[^\p{L}\d\s]{0,2}[^\p{L}\d\s.,])?\s{0,8}(?:\p{L}{1,10}\s?[=:+]\s?)?`,
  next: String.raw`(?=\d)(?!\d{1,3}>\s?\[)`,
};
/**
 * Text before a counter that only all lines together show to be one: an index and a name, `#001 tick 000137418`; a
 * letter, `t00000312`; or, before a sign that belongs to the count, `T-10:20:00`.
 */
const BEFORE_NAMED: Before = {
  text: String.raw`[^\p{L}\d]{0,3}(?:\d{1,6}[^\p{L}\d.,:]{1,3}(?:\p{L}{1,10}[\s=:+]{1,3})?|\p{L})`,
  next: String.raw`(?=\d)`,
};
const BEFORE_SIGNED: Before = {
  text: String.raw`[^\p{L}\d+-]{0,3}(?:\p{L}{1,3}\s?)?`,
  next: String.raw`(?=[+-]\d)`,
};
const BEFORE_HEX: Before = { text: String.raw`[^\p{L}\d]{0,3}(?:\p{L}{1,10}\s?[=:+]\s?)?`, next: '' };
const HEX = String.raw`(?:0[xX][\da-fA-F]{1,16}|[\da-f]{4,16}|[\dA-F]{4,16})(?![\p{L}\d_.,:-])`;
const CLOCK_OR_COUNT = String.raw`(?:\d{1,4}:\d{2}(?::\d{2})?|\d{1,12})(?:[.,]\d{1,6})?(?![\d.,:/-])`;

/**
 * Counters behind such text. Whether a line has one is first looked for from its beginning: looking back to it from
 * every place of the line takes ten times as long, and few lines have one.
 */
function behind({ text, next }: Before, count: string, ...builds: readonly Shape['build'][]): Shape[] {
  const part = new Part(`^${text}${next}${count}`);
  return builds.map((build) => shape(`${next}(?<=^${text})${count}`, build, [part]));
}

/** Counters with a base of the log's own, at the beginnings of lines. */
export const COUNTS: readonly Shape[] = [
  ...behind(BEFORE_COUNT, String.raw`\d{1,12}(?:[.,]\d{1,9})?(?![\d.,:])`, () => '{elapsed}'),
  ...behind(
    BEFORE_COUNT,
    String.raw`\d{1,4}:\d{2}(?::\d{2})?(?:[.,]\d{1,6})?(?![\d.,:]|\s?[AaPp]\.?[Mm]\b)`,
    () => '{elapsed}',
  ),
  ...behind(
    BEFORE_COUNT,
    String.raw`(?:\d{1,3}\s?h\s?)?\d{1,4}\s?m(?:in|n)?\.?\s?\d{1,2}(?:[.,]\d{1,3})?\s?s(?:ec|ek)?(?![\p{L}\d])`,
    () => '{elapsed-spelt}',
  ),
  // Times one, so that they are weighed apart from the plain ones.
  ...behind(BEFORE_NAMED, CLOCK_OR_COUNT, () => NAMED_COUNT),
  ...behind(BEFORE_SIGNED, `[+-]${CLOCK_OR_COUNT}`, () => SIGNED_COUNT),
  shape(
    String.raw`(?<![\p{L}\d])P(?:\d{1,3}D)?T(?:\d{1,2}H)?(?:\d{1,3}M)?(?:\d{1,5}(?:[.,]\d{1,6})?S)?(?![\p{L}\d])`,
    (_, text) => (/\d/.test(text) ? '{elapsed-spelt}' : null),
  ),
  ...behind(
    BEFORE_HEX,
    HEX,
    (_, text) => (isHex(text) ? '{elapsed-hex}' : null),
    (_, text) => (isHex(text) && isSinceEpoch(text, 1000) ? '{epoch-hex}' : null),
    (_, text) => (isHex(text) && isSinceEpoch(text, 1) ? '{epoch-hex*0.001}' : null),
  ),
];

/** Digits alone may be hexadecimal as well: the other lines tell. */
function isHex(text: string): boolean {
  return /\d/.test(text) || text.startsWith('0x');
}

function isSinceEpoch(text: string, msPerCount: number): boolean {
  const ms = Number.parseInt(text.replace(/^0x/i, ''), 16) * msPerCount;
  return ms > Date.UTC(2000, 0, 1) && ms < Date.UTC(2060, 0, 1);
}

const NAMED_COUNT = '{elapsed*1}';
const SIGNED_COUNT = '{elapsed*1.0}';

/** A pattern with such counters as they are written. */
export function plainCount(pattern: string): string {
  return pattern.replace(NAMED_COUNT, '{elapsed}').replace(SIGNED_COUNT, '{elapsed}');
}
