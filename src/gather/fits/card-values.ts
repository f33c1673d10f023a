/**
 * Values of FITS cards, text to plain values (FITS Standard 4.0, section 4.2).
 */
import { isUtf8 } from 'node:buffer';

/** A card's value. `null`: the card has none, or a complex number, which nothing here asks for. */
export type CardValue = string | number | boolean | null;

const SPACE = 0x20;
const QUOTE = 0x27;
const SLASH = 0x2f;
const UPPER_F = 0x46;
const UPPER_T = 0x54;

/** Columns 11 to 30 contain right-justified fixed-format numbers and logicals, counted from the `=` in column 9. */
const FIELD_START = 2;
const FIELD_END = 22;

/** Accepted as numbers by the language, but not by FITS. */
const OTHER_RADIX = /0[box]/i;
const FREE_NUMBER = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+))(?:[EeDd]([+-]?\d+))? *(?:\/|$)/;
const FREE_LOGICAL = /^([TF]) *(?:\/|$)/;
const NO_VALUE = /^(?:\/|\(|$)/;
const COMMENT = / \/.*$/s;
const NOT_PLAIN = /[^ -~]/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const CONTROL = /[\u0000-\u001f\u007f]/g;

/**
 * Reads the value of a card. Fixed format is the quick way; free format, and what only resembles FITS, the slow one.
 *
 * @param image the card's 80 bytes as Latin-1
 * @param equals position of the value indicator `=`
 */
export function parseValue(image: string, equals: number): CardValue {
  if (image.charCodeAt(equals + FIELD_START) === QUOTE) return parseString(image, equals + FIELD_START);

  const last = image.charCodeAt(equals + FIELD_END - 1);
  const next = image.charCodeAt(equals + FIELD_END);
  if (last !== SPACE && (next === SPACE || next === SLASH)) {
    if ((last === UPPER_T || last === UPPER_F) && image.charCodeAt(equals + FIELD_END - 2) === SPACE)
      return last === UPPER_T;
    const field = image.slice(equals + FIELD_START, equals + FIELD_END);
    const number = Number(field);
    if (Number.isFinite(number) && !OTHER_RADIX.test(field)) return number;
  }
  return parseFreeFormat(image.slice(equals + 1).trim());
}

/**
 * Reads the comment of a card: the text after the first `/` following its value.
 *
 * @param image the card's 80 bytes as Latin-1
 * @param equals position of the value indicator `=`
 * @returns `undefined` if there is none
 */
export function parseRemark(image: string, equals: number): string | undefined {
  let from = equals + 1;
  while (image.charCodeAt(from) === SPACE) from++;
  if (image.charCodeAt(from) === QUOTE) {
    do from = image.indexOf("'", from + 1);
    while (from !== -1 && image.charCodeAt(++from) === QUOTE);
  }
  const slash = from === -1 ? -1 : image.indexOf('/', from);
  const text = slash === -1 ? '' : decode(image.slice(slash + 1)).trim();
  return text === '' ? undefined : text;
}

/**
 * Reads a quoted string: doubled quotes are escaped ones, trailing spaces are insignificant. Without a closing quote
 * the string extends to the end of the card.
 *
 * @param open position of the opening quote
 */
export function parseString(image: string, open: number): string {
  let close = image.indexOf("'", open + 1);
  let doubled = false;
  while (close !== -1 && image.charCodeAt(close + 1) === QUOTE) {
    doubled = true;
    close = image.indexOf("'", close + 2);
  }
  const value = decode(close === -1 ? image.slice(open + 1) : image.slice(open + 1, close));
  return doubled ? value.replaceAll("''", "'") : value;
}

/**
 * Reads a value anywhere in its field. A value that is neither string, number nor logical is returned as the text
 * before ` /`, because unquoted dates and names are the most common mistake of header writers.
 */
function parseFreeFormat(field: string): CardValue {
  if (NO_VALUE.test(field)) return null;
  if (field.startsWith("'")) return parseString(field, 0);
  const logical = FREE_LOGICAL.exec(field)?.[1];
  if (logical !== undefined) return logical === 'T';
  const [, digits, exponent = '0'] = FREE_NUMBER.exec(field) ?? [];
  if (digits !== undefined) return Number(`${digits}e${exponent}`);
  return decode(field.replace(COMMENT, ''));
}

/**
 * Text without trailing spaces. The standard allows only ASCII; other bytes are decoded as UTF-8 if valid, else as
 * Latin-1, and control characters become spaces.
 */
function decode(latin1: string): string {
  if (!NOT_PLAIN.test(latin1)) return latin1.trimEnd();
  const bytes = Buffer.from(latin1, 'latin1');
  return (isUtf8(bytes) ? bytes.toString('utf8') : latin1).replace(CONTROL, ' ').trimEnd();
}
