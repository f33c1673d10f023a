/** ASCII comma and point, the possible decimal marks. */
export const COMMA = 0x2c;
export const POINT = 0x2e;

/** Whether the byte is an ASCII digit. */
export function isDigit(byte: number | undefined): boolean {
  return byte !== undefined && byte >= 0x30 && byte <= 0x39;
}

/** Whether the byte is a space or a tab. */
export function isBlank(byte: number | undefined): boolean {
  return byte === 0x20 || byte === 0x09;
}

/** UTF-8 length of the blank at `i`: a space or tab, a no-break, thin or ideographic space; 0 if there is none. */
export function blankLength(bytes: Uint8Array, i: number): number {
  if (isBlank(bytes[i])) return 1;
  if (bytes[i] === 0xc2 && bytes[i + 1] === 0xa0) return 2;
  if (bytes[i] === 0xe3 && bytes[i + 1] === 0x80 && bytes[i + 2] === 0x80) return 3;
  const last = bytes[i + 2] ?? 0;
  const isThin = (last >= 0x80 && last <= 0x8a) || last === 0xaf;
  return bytes[i] === 0xe2 && bytes[i + 1] === 0x80 && isThin ? 3 : 0;
}

/** Whether there is a colon among the digits: `1:02:03` counts hours, `102` may be anything. */
export function hasColon(bytes: Uint8Array, start: number, end: number): boolean {
  let i = start;
  while (i < end && isDigit(bytes[i])) i++;
  return i > start && i + 1 < end && bytes[i] === 0x3a && isDigit(bytes[i + 1]);
}

/** Exactly `count` digits as a number, or NaN. */
export function digits(bytes: Uint8Array, start: number, end: number, count: number): number {
  if (end - start < count) return NaN;
  let value = 0;
  for (let i = start; i < end; i++) {
    if (!isDigit(bytes[i])) return NaN;
    value = value * 10 + ((bytes[i] ?? 0) - 0x30);
  }
  return value;
}

/** One or two digits as a number, or NaN. A blank may pad a single digit on the left. */
export function upTo2(bytes: Uint8Array, i: number, end: number): number {
  const first = bytes[i];
  if (i >= end || !isDigit(first)) return NaN;
  const tens = (first ?? 0) - 0x30;
  const second = bytes[i + 1];
  return i + 1 < end && isDigit(second) ? tens * 10 + (second ?? 0) - 0x30 : tens;
}

export function next2(bytes: Uint8Array, i: number, value: number): number {
  return Number.isNaN(value) ? -1 : i + (isDigit(bytes[i + 1]) ? 2 : 1);
}

export function after(i: number, value: number): number {
  return Number.isNaN(value) ? -1 : i;
}

/** The end of a word: letters of any script, with hyphens and apostrophes among them. */
export function wordEnd(bytes: Uint8Array, start: number, end: number): number {
  let i = start;
  for (; i < end && isAsciiLetter(bytes[i]); i++);
  if (i >= end || ((bytes[i] ?? 0) < 0x80 && bytes[i] !== 0x2d && bytes[i] !== 0x27)) return i > start ? i : -1;
  const text = Buffer.from(bytes.subarray(start, Math.min(end, start + MAX_WORD))).toString('utf8');
  const word = /^\p{L}[\p{L}\p{M}]*(?:[-'’][\p{L}\p{M}]+)*/u.exec(text);
  return word === null ? -1 : start + Buffer.byteLength(word[0]);
}

/** Maximum length of a day or month name, in bytes. */
const MAX_WORD = 64;

function isAsciiLetter(byte: number | undefined): boolean {
  const lower = (byte ?? 0) | 0x20;
  return lower >= 0x61 && lower <= 0x7a;
}

export function numberEnd(bytes: Uint8Array, start: number, end: number): number {
  let i = start;
  while (i < end && isDigit(bytes[i])) i++;
  return i > start ? i : -1;
}

export function skipEnd(bytes: Uint8Array, start: number, end: number): number {
  let i = start;
  while (i < end && !isBlank(bytes[i])) i++;
  return i > start ? i : -1;
}
