import type { Stamp } from './stamp-tokens.js';

const COLON = 0x3a;
const A = 0x41;
const B = 0x42;

/**
 * The letter after an hour that occurs twice because the clock is put back, `2A:30` and `2B:30`: the hour's first or
 * second pass, 0 without a letter.
 *
 * @param i index of the byte after the hour, −1 if there is none
 */
export function passOf(bytes: Uint8Array, i: number, end: number): Stamp['pass'] {
  if (i < 0 || i + 1 >= end || bytes[i + 1] !== COLON) return 0;
  return bytes[i] === A ? 1 : bytes[i] === B ? 2 : 0;
}
