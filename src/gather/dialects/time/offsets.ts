/** Hours ahead of UTC of unambiguous zone abbreviations (IANA time zone database). */
const HOURS: Readonly<Record<string, number>> = {
  WET: 0,
  WEST: 1,
  CET: 1,
  MEZ: 1,
  SEČ: 1,
  CEST: 2,
  MESZ: 2,
  SELČ: 2,
  EET: 2,
  EEST: 3,
  MSK: 3,
  JST: 9,
  AWST: 8,
  ACST: 9.5,
  AEST: 10,
  AEDT: 11,
  NZST: 12,
  NZDT: 13,
  EDT: -4,
  CDT: -5,
  MDT: -6,
  MST: -7,
  PDT: -7,
  PST: -8,
  AKDT: -8,
  AKST: -9,
  HST: -10,
};

/** The abbreviations as alternatives of a pattern, longer ones first. */
export const ZONE_WORDS = Object.keys(HOURS)
  .sort((a, b) => b.length - a.length)
  .join('|');
const ZONE_WORD = new RegExp(`^(?:${ZONE_WORDS})(?![A-Za-z+-])`);

/** Offset of a clock from UTC, minutes, and the index of the first byte after its text. */
export interface Offset {
  readonly minutes: number;
  readonly end: number;
}

/** Reads `Z`, `UTC`, `CEST`, `+2`, `+02:00`, `+0200` or `−02:00` at byte `i`. */
export function readOffset(bytes: Uint8Array, i: number, end: number): Offset | null {
  const text = Buffer.from(bytes.subarray(i, Math.min(end, i + 8))).toString('utf8');
  const zero = /^(?:Z|z|UTC|GMT)(?![A-Za-z+-])/.exec(text);
  if (zero !== null) return { minutes: 0, end: i + zero[0].length };
  const [word] = ZONE_WORD.exec(text) ?? [];
  const named = word === undefined ? undefined : HOURS[word];
  if (word !== undefined && named !== undefined) return { minutes: named * 60, end: i + Buffer.byteLength(word) };
  const match = /^([+\-\u2212])(\d{2}):?(\d{2})(?!\d)|^([+\-\u2212])(\d{1,2})(?![\d:])/.exec(text);
  if (match === null) return null;
  const hours = Number(match[2] ?? match[5]);
  const minutes = Number(match[3] ?? 0);
  if (hours > 23 || minutes > 59) return null;
  const sign = (match[1] ?? match[4]) === '+' ? 1 : -1;
  return { minutes: (hours * 60 + minutes) * sign, end: i + Buffer.byteLength(match[0]) };
}

/** The offset that a text is, with or without `UTC` in front, minutes; NaN if it is none. */
export function offsetIn(text: string): number {
  const bytes = Buffer.from(text.trim().replace(/^(?:UTC?|GMT|TU)\s?(?=[+\-\u2212])/, ''));
  return readOffset(bytes, 0, bytes.length)?.minutes ?? NaN;
}
