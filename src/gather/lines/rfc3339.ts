import { wallMs } from './civil-time.js';

const ZERO = 0x30;
const NINE = 0x39;
const PLUS = 0x2b;
const MINUS = 0x2d;
const DOT = 0x2e;
const COLON = 0x3a;

/**
 * Reads an RFC 3339 date and time, offset required, from bytes `[start, end)`.
 * Digits beyond the millisecond are cut off.
 *
 * @returns UTC ms since the epoch, or NaN when the bytes are anything else
 */
export function rfc3339FromBytes(bytes: Uint8Array, start: number, end: number): number {
  // 2026-10-14T19:42:10Z is the shortest form.
  if (end - start < 20) return NaN;
  const separator = bytes[start + 10];
  const isT = separator === 0x54 || separator === 0x74 || separator === 0x20;
  if (
    !isT ||
    bytes[start + 4] !== MINUS ||
    bytes[start + 7] !== MINUS ||
    bytes[start + 13] !== COLON ||
    bytes[start + 16] !== COLON
  )
    return NaN;

  let i = start + 19;
  let ms = 0;
  if (bytes[i] === DOT) {
    i++;
    let scale = 100;
    const first = i;
    for (let digit = digitAt(bytes, i); i < end && digit >= 0; digit = digitAt(bytes, ++i)) {
      ms += digit * scale;
      scale = scale > 1 ? scale / 10 : 0;
    }
    if (i === first) return NaN;
  }
  const year = two(bytes, start) * 100 + two(bytes, start + 2);
  const hour = two(bytes, start + 11);
  if (hour > 23) return NaN;
  const wall = wallMs(
    year,
    two(bytes, start + 5),
    two(bytes, start + 8),
    hour,
    two(bytes, start + 14),
    two(bytes, start + 17),
    ms,
  );
  return wall - offsetAt(bytes, i, end) * 60_000;
}

/** The same for a string. */
export function rfc3339(text: string): number {
  if (text.length < 20 || text.length > 64) return NaN;
  for (let i = 0; i < text.length; i++) scratch[i] = Math.min(text.charCodeAt(i), 0x7f);
  return rfc3339FromBytes(scratch, 0, text.length);
}

const scratch = new Uint8Array(64);

function digitAt(bytes: Uint8Array, i: number): number {
  const byte = bytes[i] ?? 0;
  return byte >= ZERO && byte <= NINE ? byte - ZERO : -1;
}

/** Two digits, or NaN, which passes every comparison and makes the sum NaN in the end. */
function two(bytes: Uint8Array, i: number): number {
  const tens = digitAt(bytes, i);
  const ones = digitAt(bytes, i + 1);
  return tens < 0 || ones < 0 ? NaN : tens * 10 + ones;
}

/** Minutes east of Greenwich of `Z` or `±hh:mm` that fills bytes `[i, end)`, or NaN. */
function offsetAt(bytes: Uint8Array, i: number, end: number): number {
  const sign = bytes[i];
  if (sign === 0x5a || sign === 0x7a) return i + 1 === end ? 0 : NaN;
  if ((sign !== PLUS && sign !== MINUS) || i + 6 !== end || bytes[i + 3] !== COLON) return NaN;
  const hours = two(bytes, i + 1);
  const minutes = two(bytes, i + 4);
  if (!(hours <= 23 && minutes <= 59)) return NaN;
  return (hours * 60 + minutes) * (sign === PLUS ? 1 : -1);
}
