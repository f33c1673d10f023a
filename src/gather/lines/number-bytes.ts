import { itemAt } from '../../model/collections.js';

const ZERO = 0x30;
const POINT = 0x2e;
const COMMA = 0x2c;

const POWERS_OF_TEN = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15] as const;

/**
 * Reads a plain decimal number, such as `-0.42`, that fills bytes `[start, end)`. Up to 15 digits: there the
 * integer of the digits and the power of ten are both exact doubles, so one division rounds correctly
 * (Clinger, How to read floating point numbers accurately, PLDI 1990).
 *
 * @returns NaN for anything else: exponents, blanks, more digits, no digits
 */
export function plainNumber(bytes: Uint8Array, start: number, end: number, decimalComma = false): number {
  const mark = decimalComma ? COMMA : POINT;
  let i = start;
  const sign = bytes[i];
  if (sign === 0x2d || sign === 0x2b) i++;
  let digits = 0;
  let value = 0;
  let decimals = -1;
  for (; i < end; i++) {
    const byte = bytes[i] ?? 0;
    const digit = byte - ZERO;
    if (digit >= 0 && digit <= 9) {
      value = value * 10 + digit;
      digits++;
      if (decimals >= 0) decimals++;
    } else if (byte === mark && decimals < 0) {
      decimals = 0;
    } else {
      return NaN;
    }
  }
  if (digits === 0 || digits > 15) return NaN;
  const size = decimals > 0 ? value / itemAt(POWERS_OF_TEN, decimals) : value;
  return sign === 0x2d ? -size : size;
}
