/**
 * Durations, counts and shares in words: one style on every page and in every sentence.
 */
const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;

const two = (value: number): string => String(value).padStart(2, '0');

/**
 * A duration for reading: `8.7 h`, `38 min`, `4 min 25 s`, `42 s`, `9.4 s`. Rounded to the last unit shown, half up.
 *
 * @param ms milliseconds, not negative
 */
export function duration(ms: number): string {
  if (ms < 9.95 * SECOND) return `${Number((ms / SECOND).toFixed(1))} s`;
  if (ms < MINUTE - SECOND / 2) return `${Math.round(ms / SECOND)} s`;
  if (ms < 10 * MINUTE - SECOND / 2) {
    const seconds = Math.round(ms / SECOND);
    return seconds % 60 === 0 ? `${seconds / 60} min` : `${Math.floor(seconds / 60)} min ${two(seconds % 60)} s`;
  }
  const minutes = Math.round(ms / MINUTE);
  return minutes < 60 ? `${minutes} min` : `${(ms / HOUR).toFixed(1)} h`;
}

/** A duration known to the minute at best: `4 min`, `8.7 h`, `under 1 min`. */
export function about(ms: number): string {
  const minutes = Math.round(ms / MINUTE);
  if (minutes < 1) return 'under 1 min';
  return minutes < 60 ? `${minutes} min` : `${(ms / HOUR).toFixed(1)} h`;
}

/**
 * A range between two durations, to two digits: `1.0–1.7 h`, `35–42 min`, `12–17 h`; one figure if both are the same.
 * For figures with no better accuracy.
 *
 * @param lowMs milliseconds, not negative
 */
export function durationRange(lowMs: number, highMs: number): string {
  const [divisor, unit] = highMs < HOUR ? [MINUTE, 'min'] : [HOUR, 'h'];
  const [low, high] = [lowMs, highMs].map((ms) => twoDigits(ms / divisor));
  return low === high ? `${high} ${unit}` : `${low}–${high} ${unit}`;
}

function twoDigits(value: number): string {
  if (value >= 9.95) return Number(value.toPrecision(2)).toFixed(0);
  return value >= 0.95 || value === 0 ? value.toFixed(1) : value.toFixed(2);
}

/** A duration to the whole second, for columns that must add up: `6 h 40 min 05 s`, `0 s`. */
export function exactDuration(ms: number): string {
  const seconds = Math.round(ms / SECOND);
  const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  if (h > 0) return `${h} h ${two(m)} min ${two(s)} s`;
  return m > 0 ? `${m} min ${two(s)} s` : `${s} s`;
}

/**
 * The offset of a clock, regardless of sign, or its uncertainty: `0.03 s`, `36.4 s`, `14 min 46 s`, `3 h 00 min 03 s`.
 */
export function clockDifference(ms: number): string {
  const size = Math.abs(ms);
  if (size < 0.995 * SECOND) return size < 5 ? '0 s' : `${(size / SECOND).toFixed(2)} s`;
  return size < MINUTE - SECOND / 20 ? `${(size / SECOND).toFixed(1)} s` : exactDuration(size);
}

/** A gain with its sign, to the minute at best: `+34 min`, `−12 min`, `0 min`, `+2.3 h`. */
export function signedDuration(ms: number): string {
  const minutes = Math.round(ms / MINUTE);
  const size = Math.abs(minutes) < 60 ? `${Math.abs(minutes)} min` : `${(Math.abs(ms) / HOUR).toFixed(1)} h`;
  return `${minutes > 0 ? '+' : minutes < 0 ? '−' : ''}${size}`;
}

/** Units that follow a number after a blank. */
const UNITS = 's|ms|min|h|%|°C|K|px|nm|µm|mm|cm|m|km|B|kB|MB|GB|MP|mag|ADU|e⁻';
const BEFORE_UNIT = new RegExp(`(?<=\\d) (?=(?:${UNITS})(?![\\p{L}\\d]))`, 'gu');
/** `4 min 25 s` is one length. */
const WITHIN_LENGTH = /(?<=\d\u00a0(?:h|min)) (?=\d\d\u00a0(?:min|s)(?![\p{L}\d]))/gu;

/** A text in which no line breaks between a number and its unit. */
export function firm(text: string): string {
  return text.replace(BEFORE_UNIT, '\u00a0').replace(WITHIN_LENGTH, '\u00a0');
}

/** A whole number with thin groups of thousands: `12 400`. */
export function whole(value: number): string {
  return Math.round(value)
    .toString()
    .replaceAll(/\B(?=(\d{3})+$)/g, '\u202f');
}

/** `1 frame`, `3 frames`. */
export function counted(count: number, singular: string, plural = `${singular}s`): string {
  return `${whole(count)} ${count === 1 ? singular : plural}`;
}

/** `once`, `twice`, `3 times`. */
export function times(count: number): string {
  return count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(items: readonly string[], last = 'and'): string {
  return [items.slice(0, -1).join(', '), ...items.slice(-1)].filter((part) => part !== '').join(` ${last} `);
}

/** Placeholder for an unknown value; the reason is given next to it. */
export const UNKNOWN = '—';

/** A number with a fixed count of decimals and a true minus sign; an em dash when it is not known. */
export function decimal(value: number | null | undefined, digits: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return UNKNOWN;
  const text = Math.abs(value).toFixed(digits);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/** A fraction of 1 in per cent: `62 %`; below one per cent `0.4 %`, below that `< 0.1 %`. */
export function percent(share: number | null | undefined): string {
  if (share === null || share === undefined || !Number.isFinite(share)) return UNKNOWN;
  const value = share * 100;
  if (value > 0 && value < 0.05) return '< 0.1 %';
  return `${value > 0 && value < 0.95 ? value.toFixed(1) : value.toFixed(0)} %`;
}

/** A range between two fractions of 1, to two digits: `4–26 %`, `0.45–1.2 %`; one figure if both are the same. */
export function percentRange(low: number, high: number): string {
  const [from, to] = [low, high].map((share) => String(Number((100 * share).toPrecision(2))));
  return from === to ? `${to} %` : `${from}–${to} %`;
}

/** A file size: `5.8 kB`, `12.4 MB`. */
export function fileSize(bytes: number): string {
  if (bytes < 1000) return `${bytes} B`;
  if (bytes < 1e6) return `${(bytes / 1e3).toFixed(1)} kB`;
  return bytes < 1e9 ? `${(bytes / 1e6).toFixed(1)} MB` : `${(bytes / 1e9).toFixed(2)} GB`;
}

/**
 * Rounds parts to a unit so that the rounded parts add up to the rounded sum (largest remainders are rounded up first).
 * A column in whole seconds can then be added up by its reader.
 *
 * @param parts milliseconds
 * @param unitMs the unit shown, milliseconds
 * @returns milliseconds, each a multiple of the unit
 */
export function roundToSum(parts: readonly number[], unitMs: number): number[] {
  const units = parts.map((part, index) => ({ index, floor: Math.floor(part / unitMs), share: part / unitMs }));
  const sum = Math.round(parts.reduce((total, part) => total + part, 0) / unitMs);
  const spare = sum - units.reduce((total, { floor }) => total + floor, 0);
  const order = [...units].sort((a, b) => b.share - b.floor - (a.share - a.floor) || a.index - b.index);
  const up = new Set(order.slice(0, Math.max(0, spare)).map(({ index }) => index));
  return units.map(({ floor, index }) => (floor + (up.has(index) ? 1 : 0)) * unitMs);
}

/** Evidence that a shared edition does not give. */
export const LEFT_OUT = 'the details are left out of the shared edition';
