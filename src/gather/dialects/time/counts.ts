import { COMMA, isDigit, POINT } from './bytes.js';

const DAY_MS = 86_400_000;

/** What a count of days, seconds or smaller units says, and the index of the first byte after it. */
export interface Count {
  readonly ms: number;
  readonly end: number;
}

/** Point, colon, hyphen and slash: between digits they make a date or a longer clock of what came before. */
const CONTINUES: ReadonlySet<number> = new Set([0x2e, 0x3a, 0x2d, 0x2f]);

/** Days with a fraction, whole days since 1970 taken first so that the fraction keeps its digits. */
export function readDays(bytes: Uint8Array, start: number, end: number, daysOfEpoch: number): Count | null {
  let i = start;
  let days = 0;
  while (i < end && i - start < 8 && isDigit(bytes[i])) days = days * 10 + ((bytes[i++] ?? 0) - 0x30);
  if (i === start) return null;
  let fraction = 0;
  if (i + 1 < end && (bytes[i] === POINT || bytes[i] === COMMA) && isDigit(bytes[i + 1])) {
    let scale = 0.1;
    for (i++; i < end && isDigit(bytes[i]); i++, scale /= 10) fraction += ((bytes[i] ?? 0) - 0x30) * scale;
  }
  return { ms: Math.round((days - daysOfEpoch + fraction) * DAY_MS), end: i };
}

/** A count with an optional fraction; as elapsed time also `h:mm:ss` and `m:ss`. */
export function readCount(
  bytes: Uint8Array,
  start: number,
  end: number,
  msPerUnit: number,
  clock: boolean,
): Count | null {
  let i = start;
  const negative = bytes[i] === 0x2d;
  if (negative) i++;
  let value = 0;
  let fields = 0;
  for (;;) {
    const from = i;
    let field = 0;
    while (i < end && i - from < 16 && isDigit(bytes[i])) field = field * 10 + ((bytes[i++] ?? 0) - 0x30);
    if (i === from) return null;
    value = value * 60 + field;
    if (!clock || ++fields === 3 || i >= end || bytes[i] !== 0x3a || !isDigit(bytes[i + 1])) break;
    i++;
  }
  let fraction = 0;
  if (i + 1 < end && (bytes[i] === POINT || bytes[i] === COMMA) && isDigit(bytes[i + 1])) {
    let scale = 0.1;
    for (i++; i < end && isDigit(bytes[i]); i++, scale /= 10) fraction += ((bytes[i] ?? 0) - 0x30) * scale;
  }
  // `12.10.2026` and `12:30:05:1` count nothing.
  if (clock && i + 1 < end && CONTINUES.has(bytes[i] ?? 0) && isDigit(bytes[i + 1])) return null;
  // Whole milliseconds; the half-millisecond guard keeps 0.250 from becoming 249.
  const ms = Math.floor((value + fraction) * msPerUnit + 1e-3) * (negative ? -1 : 1);
  return Number.isSafeInteger(ms) ? { ms, end: i } : null;
}
