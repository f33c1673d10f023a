import { shape, type Shape } from './shape.js';

/**
 * Possible text before a counter at the beginning of a line: blanks, marks, a name such as `T+` or `t=`, the priority
 * of the message as in `<6>[   12.345]`.
 */
const COUNT_BEFORE = String.raw`(?=\d)(?!\d{1,3}>\s?\[)(?<=^\s*(?:<\d{1,3}>)?(?:[^\p{L}\d\s]{0,2}[^\p{L}\d\s.,])?\s{0,8}(?:\p{L}{1,10}\s?[=:+]\s?)?)`;

/** Counters with a base of the log's own, at the beginnings of lines. */
export const COUNTS: readonly Shape[] = [
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
