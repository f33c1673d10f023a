import { Part, shape, type Shape } from './shape.js';

/**
 * Possible text before a counter at the beginning of a line: blanks, marks, a name such as `T+` or `t=`, the priority
 * of the message as in `<6>[   12.345]`.
 */
const COUNT_BEFORE = String.raw`(?=\d)(?!\d{1,3}>\s?\[)(?<=^\s*(?:<\d{1,3}>)?(?:[^\p{L}\d\s]{0,2}[^\p{L}\d\s.,])?\s{0,8}(?:\p{L}{1,10}\s?[=:+]\s?)?)`;

/**
 * Text before a counter that only all lines together show to be one: an index and a name, `#001 tick 000137418`; a
 * letter, `t00000312`; or, before a sign that belongs to the count, `T-10:20:00`.
 */
const NAME_BEFORE = String.raw`(?=\d)(?<=^[^\p{L}\d]{0,3}(?:\d{1,6}[^\p{L}\d.,:]{1,3}(?:\p{L}{1,10}[\s=:+]{1,3})?|\p{L}))`;
const SIGN_BEFORE = String.raw`(?=[+-]\d)(?<=^[^\p{L}\d+-]{0,3}(?:\p{L}{1,3}\s?)?)`;
const HEX_BEFORE = String.raw`(?<=^[^\p{L}\d]{0,3}(?:\p{L}{1,10}\s?[=:+]\s?)?)`;
const HEX = String.raw`(?:0[xX][\da-fA-F]{1,16}|[\da-f]{4,16}|[\dA-F]{4,16})(?![\p{L}\d_.,:-])`;
const HEX_COUNT = `${HEX_BEFORE}${HEX}`;
const HAS_HEX = new Part(HEX_COUNT);
const CLOCK_OR_COUNT = String.raw`(?:\d{1,4}:\d{2}(?::\d{2})?|\d{1,12})(?:[.,]\d{1,6})?(?![\d.,:/-])`;

/** Counters with a base of the log's own, at the beginnings of lines. */
export const COUNTS: readonly Shape[] = [
  shape(String.raw`${COUNT_BEFORE}\d{1,12}(?:[.,]\d{1,9})?(?![\d.,:])`, () => '{elapsed}'),
  shape(
    String.raw`${COUNT_BEFORE}\d{1,4}:\d{2}(?::\d{2})?(?:[.,]\d{1,6})?(?![\d.,:]|\s?[AaPp]\.?[Mm]\b)`,
    () => '{elapsed}',
  ),
  shape(
    String.raw`${COUNT_BEFORE}(?:\d{1,3}\s?h\s?)?\d{1,4}\s?m(?:in|n)?\.?\s?\d{1,2}(?:[.,]\d{1,3})?\s?s(?:ec|ek)?(?![\p{L}\d])`,
    () => '{elapsed-spelt}',
  ),
  // Times one, so that they are weighed apart from the plain ones.
  shape(`${NAME_BEFORE}${CLOCK_OR_COUNT}`, () => NAMED_COUNT),
  shape(`${SIGN_BEFORE}[+-]${CLOCK_OR_COUNT}`, () => SIGNED_COUNT),
  shape(
    String.raw`(?<![\p{L}\d])P(?:\d{1,3}D)?T(?:\d{1,2}H)?(?:\d{1,3}M)?(?:\d{1,5}(?:[.,]\d{1,6})?S)?(?![\p{L}\d])`,
    (_, text) => (/\d/.test(text) ? '{elapsed-spelt}' : null),
  ),
  ...(
    [
      ['{elapsed-hex}', isHex],
      ['{epoch-hex}', (text) => isHex(text) && isSinceEpoch(text, 1000)],
      ['{epoch-hex*0.001}', (text) => isHex(text) && isSinceEpoch(text, 1)],
    ] as const satisfies readonly (readonly [string, (text: string) => boolean])[]
  ).map(([pattern, is]) => shape(HEX_COUNT, (_, text) => (is(text) ? pattern : null), [HAS_HEX])),
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
