/**
 * Parses values of FITS cards from their bytes: plain fixed format, used by nearly every card. Anything else is left to
 * `parseValue`, with identical results.
 */
import { plainNumber } from '../lines/number-bytes.js';

const SPACE = 0x20;
const QUOTE = 0x27;
const SLASH = 0x2f;
const AMPERSAND = 0x26;
const TILDE = 0x7e;

/** Columns of the card, counted from its first byte (FITS Standard 4.0, section 4.2). */
const FIELD = 10;
const FIELD_BEYOND = 30;
const CARD = 80;

/** Cache of texts by a hash of their bytes: those of a night repeat, and need not be created again. */
const TEXTS = 256;
const texts: string[] = Array.from({ length: TEXTS }, () => '');

/**
 * The value of a card with `=` in column 9.
 *
 * @param at its first byte
 * @returns `undefined` if not in plain fixed format, or if possibly continued in the next card
 */
export function plainValue(bytes: Buffer, at: number): string | number | undefined {
  const first = bytes[at + FIELD];
  if (first === QUOTE) return plainText(bytes, at + FIELD + 1, at + CARD);
  const next = bytes[at + FIELD_BEYOND];
  if (next !== SPACE && next !== SLASH) return undefined;
  let from = at + FIELD;
  const beyond = at + FIELD_BEYOND;
  while (from < beyond && bytes[from] === SPACE) from++;
  const number = plainNumber(bytes, from, beyond);
  return Number.isNaN(number) ? undefined : number;
}

/** Printable ASCII up to its closing quote, without trailing spaces. */
function plainText(bytes: Buffer, from: number, cardEnds: number): string | undefined {
  let beyond = from;
  let last = from;
  let place = 0;
  for (; beyond < cardEnds; beyond++) {
    const byte = bytes[beyond]!;
    if (byte === QUOTE) break;
    if (byte < SPACE || byte > TILDE) return undefined;
    if (byte === SPACE) continue;
    last = beyond + 1;
    place = (Math.imul(place, 31) + byte) | 0;
  }
  // A doubled quote is an escaped one; without a closing quote, the text extends to the end of the card.
  if (beyond >= cardEnds - 1 || bytes[beyond + 1] === QUOTE) return undefined;
  if (last > from && bytes[last - 1] === AMPERSAND) return undefined;
  place &= TEXTS - 1;
  const known = texts[place]!;
  if (isAt(bytes, from, last, known)) return known;
  return (texts[place] = bytes.toString('latin1', from, last));
}

function isAt(bytes: Buffer, from: number, beyond: number, text: string): boolean {
  if (text.length !== beyond - from) return false;
  for (let i = 0; i < text.length; i++) if (text.charCodeAt(i) !== bytes[from + i]) return false;
  return true;
}
