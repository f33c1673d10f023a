import { wallMs } from '../../lines/civil-time.js';
import { COMMA, POINT } from './bytes.js';
import type { Stamp } from './stamp-tokens.js';

const DASH = 0x2d;
const COLON = 0x3a;
/** `2026-10-14 19:42:10` */
const LENGTH = 19;

/** The byte between date and time in the most common patterns; `undefined` for others. */
export function markOfUsual(source: string): number | undefined {
  const [, mark] = /^\{year\}-\{month\}-\{day\}([ T])\{hour\}:\{minute\}:\{second\}$/.exec(source) ?? [];
  return mark?.charCodeAt(0);
}

/**
 * Reads such a pattern if every part has all of its digits, three times as fast as one placeholder at a time.
 *
 * @returns false if the bytes are anything else: they may still be a stamp
 */
export function readUsual(bytes: Uint8Array, start: number, end: number, mark: number, stamp: Stamp): boolean {
  if (end - start < LENGTH || bytes[start + 4] !== DASH || bytes[start + 7] !== DASH) return false;
  if (bytes[start + 10] !== mark || bytes[start + 13] !== COLON || bytes[start + 16] !== COLON) return false;
  let i = start + LENGTH;
  let fraction = 0;
  if ((bytes[i] === POINT || bytes[i] === COMMA) && i + 1 < end && digit(bytes, i + 1) >= 0) {
    // Digits beyond the millisecond are truncated.
    let scale = 100;
    for (i++; i < end && digit(bytes, i) >= 0; i++) {
      fraction += digit(bytes, i) * scale;
      scale = scale > 1 ? scale / 10 : 0;
    }
  }
  const year = two(bytes, start) * 100 + two(bytes, start + 2);
  const month = two(bytes, start + 5);
  const day = two(bytes, start + 8);
  // A non-digit makes a NaN of it.
  const ms = wallMs(year, month, day, two(bytes, start + 11), two(bytes, start + 14), two(bytes, start + 17), fraction);
  if (Number.isNaN(ms)) return false;
  stamp.ms = ms;
  stamp.offsetMinutes = NaN;
  stamp.pass = 0;
  stamp.month = month;
  stamp.day = day;
  stamp.start = start;
  stamp.end = i;
  return true;
}

function two(bytes: Uint8Array, i: number): number {
  return digit(bytes, i) * 10 + digit(bytes, i + 1);
}

/** NaN for non-digits; comparisons with it are false. */
function digit(bytes: Uint8Array, i: number): number {
  const value = bytes[i]! - 0x30;
  return value >= 0 && value <= 9 ? value : NaN;
}
