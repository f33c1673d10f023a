/**
 * Cards that were padded to 80 characters and written as UTF-8: each character beyond ASCII takes two bytes or more,
 * and the cards after it begin too late. The standard allows only ASCII, in cards of 80 bytes (FITS Standard 4.0,
 * section 4.1).
 */
import { BLOCK_BYTES, CARD_BYTES } from './cards.js';

const KEYWORD_BYTES = 8;
const WITH_VALUE = /^[A-Z0-9_-]{1,8} *$/i;
const WITHOUT_VALUE: ReadonlySet<string> = new Set(['COMMENT', 'HISTORY', 'CONTINUE', 'HIERARCH', 'END']);
/** More of them are no header. */
const MOST = 1000;

/** A header whose cards begin where they should again. */
export interface Realigned {
  readonly bytes: Buffer;
  /** The cards that were too long, by their keywords. */
  readonly overlong: readonly string[];
}

/**
 * Cuts overlong cards to their first 80 bytes, which leaves out blanks of the padding.
 *
 * @param bytes the header as read, from its first card on
 * @returns `null` when no card is too long
 */
export function realigned(bytes: Buffer): Realigned | null {
  const pieces: Buffer[] = [];
  const overlong: string[] = [];
  let from = 0;
  for (let at = 0; at + CARD_BYTES <= bytes.length && overlong.length < MOST; ) {
    const next = at + CARD_BYTES;
    const extra = extraBytes(bytes, at, next);
    if (extra > 0 && !beginsCard(bytes, next) && beginsCard(bytes, next + extra)) {
      pieces.push(bytes.subarray(from, next));
      overlong.push(keywordAt(bytes, at).trimEnd());
      from = next + extra;
      at = from;
    } else at = next;
  }
  if (overlong.length === 0) return null;
  pieces.push(bytes.subarray(from));
  return { bytes: Buffer.concat(pieces), overlong };
}

/** Bytes of a card beyond one for each of its characters: continuation bytes of UTF-8. */
function extraBytes(bytes: Buffer, from: number, beyond: number): number {
  let extra = 0;
  // What the last characters are pushed out by may hold further ones.
  for (let i = from; i < Math.min(beyond + extra, bytes.length); i++) if ((bytes[i]! & 0xc0) === 0x80) extra++;
  return extra <= BLOCK_BYTES ? extra : 0;
}

/** Whether a card with a keyword begins; blanks may as well be the padding of the one before. */
function beginsCard(bytes: Buffer, at: number): boolean {
  const keyword = keywordAt(bytes, at);
  if (keyword.length < KEYWORD_BYTES) return false;
  if (WITHOUT_VALUE.has(keyword.trimEnd())) return true;
  return WITH_VALUE.test(keyword) && bytes.toString('latin1', at + KEYWORD_BYTES, at + KEYWORD_BYTES + 2) === '= ';
}

function keywordAt(bytes: Buffer, at: number): string {
  return bytes.toString('latin1', at, at + KEYWORD_BYTES);
}
