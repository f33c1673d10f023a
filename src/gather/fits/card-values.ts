/**
 * Values of FITS cards, text to plain values (FITS Standard 4.0, section 4.2).
 */
import { isUtf8 } from 'node:buffer';

/** A card's value. `null`: the card has none, or a complex number, which nothing here asks for. */
export type CardValue = string | number | boolean | null;

/** Header bytes, and the same as Latin-1 text: one character a byte. */
export interface HeaderText {
  readonly bytes: Buffer;
  readonly text: string;
}

const SPACE = 0x20;
const QUOTE = 0x27;
const SLASH = 0x2f;
const UPPER_F = 0x46;
const UPPER_T = 0x54;

/** Columns 11 to 30, where fixed-format numbers and logicals stand right-justified, counted from the `=` in column 9. */
const FIELD_START = 2;
const FIELD_END = 22;

/** What the language takes for a number and FITS does not. */
const OTHER_RADIX = /0[box]/i;
const FREE_NUMBER = /^([+-]?(?:\d+\.?\d*|\.\d+))(?:[EeDd]([+-]?\d+))? *(?:\/|$)/;
const FREE_LOGICAL = /^([TF]) *(?:\/|$)/;
const NO_VALUE = /^(?:\/|\(|$)/;
const COMMENT = / \/.*$/s;
const NOT_PLAIN = /[^ -~]/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const CONTROL = /[\u0000-\u001f\u007f]/g;

/**
 * Reads the value of a card. Fixed format is the quick way; free format, and what only resembles FITS, the slow one.
 *
 * @param equals offset of the value indicator `=`
 * @param end first byte after the card
 */
export function parseValue(header: HeaderText, equals: number, end: number): CardValue {
  const { text } = header;
  if (text.charCodeAt(equals + FIELD_START) === QUOTE) return parseString(header, equals + FIELD_START, end);

  const last = text.charCodeAt(equals + FIELD_END - 1);
  const next = text.charCodeAt(equals + FIELD_END);
  if (last !== SPACE && (next === SPACE || next === SLASH) && equals + FIELD_END < end) {
    if ((last === UPPER_T || last === UPPER_F) && text.charCodeAt(equals + FIELD_END - 2) === SPACE) return last === UPPER_T;
    const field = text.slice(equals + FIELD_START, equals + FIELD_END);
    const number = Number(field);
    if (Number.isFinite(number) && !OTHER_RADIX.test(field)) return number;
  }
  return parseFreeFormat(header, equals + 1, end);
}

/**
 * Reads a quoted string: doubled quotes stand for one, trailing spaces do not count.
 * Without a closing quote the string runs to the end of the card.
 *
 * @param open offset of the opening quote
 */
export function parseString(header: HeaderText, open: number, end: number): string {
  const { text } = header;
  let close = text.indexOf("'", open + 1);
  let doubled = false;
  while (close !== -1 && close + 1 < end && text.charCodeAt(close + 1) === QUOTE) {
    doubled = true;
    close = text.indexOf("'", close + 2);
  }
  const value = decode(header, open + 1, close === -1 || close > end ? end : close);
  return doubled ? value.replaceAll("''", "'") : value;
}

/**
 * Reads a value that stands anywhere in the card. What is neither string, number nor logical comes back as the
 * text before ` /`, because unquoted dates and names are the commonest slip of header writers.
 */
function parseFreeFormat(header: HeaderText, start: number, end: number): CardValue {
  const field = header.text.slice(start, end).trimEnd();
  const value = field.trimStart();
  if (NO_VALUE.test(value)) return null;
  const at = start + field.length - value.length;
  if (value.startsWith("'")) return parseString(header, at, end);
  const logical = FREE_LOGICAL.exec(value)?.[1];
  if (logical !== undefined) return logical === 'T';
  const [, digits, exponent = '0'] = FREE_NUMBER.exec(value) ?? [];
  if (digits !== undefined) return Number(`${digits}e${exponent}`);
  return decode(header, at, at + value.replace(COMMENT, '').length);
}

/**
 * Text without its trailing spaces, as a string of its own: a slice would keep the whole header in memory.
 * The standard allows ASCII alone; other bytes are UTF-8 where they are valid UTF-8, else Latin-1, and control
 * characters become spaces.
 */
function decode({ bytes, text }: HeaderText, start: number, end: number): string {
  const value = text.slice(start, end).trimEnd();
  if (!NOT_PLAIN.test(value)) return bytes.toString('latin1', start, start + value.length);
  const slice = bytes.subarray(start, end);
  return slice.toString(isUtf8(slice) ? 'utf8' : 'latin1').replace(CONTROL, ' ').trimEnd();
}
