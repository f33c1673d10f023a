const SECOND = 1000;
const MINUTE = 60 * SECOND;

const two = (value: number): string => String(value).padStart(2, '0');

/**
 * A duration for reading: `6 h 40 m`, `38 m`, `4 m 12 s`, `9.4 s`. Rounded to the last unit shown, half up.
 *
 * @param ms milliseconds, not negative
 */
export function duration(ms: number): string {
  if (ms < 9.95 * SECOND) return ms === 0 ? '0 s' : `${(ms / SECOND).toFixed(1)} s`;
  if (ms < 59.5 * SECOND) return `${Math.round(ms / SECOND)} s`;
  if (ms < 10 * MINUTE - SECOND / 2) {
    const seconds = Math.round(ms / SECOND);
    return seconds % 60 === 0 ? `${seconds / 60} m` : `${Math.floor(seconds / 60)} m ${two(seconds % 60)} s`;
  }
  const minutes = Math.round(ms / MINUTE);
  return minutes < 60 ? `${minutes} m` : `${Math.floor(minutes / 60)} h ${two(minutes % 60)} m`;
}

/** A duration to the whole second, for columns that must add up: `6 h 40 m 05 s`, `0 s`. */
export function exactDuration(ms: number): string {
  const seconds = Math.round(ms / SECOND);
  const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  if (h > 0) return `${h} h ${two(m)} m ${two(s)} s`;
  return m > 0 ? `${m} m ${two(s)} s` : `${s} s`;
}

/**
 * Rounds parts to a unit so that the rounded parts add up to the rounded sum (largest remainders go up first).
 * A column shown in whole seconds can then be added up by its reader.
 *
 * @param parts milliseconds
 * @param unitMs the unit shown, milliseconds
 * @returns milliseconds, each a multiple of the unit
 */
export function roundToSum(parts: readonly number[], unitMs: number): number[] {
  const floors = parts.map((part) => Math.floor(part / unitMs));
  const sum = Math.round(parts.reduce((total, part) => total + part, 0) / unitMs);
  const spare = sum - floors.reduce((total, part) => total + part, 0);
  const order = parts
    .map((part, index) => ({ index, rest: part / unitMs - (floors[index] ?? 0) }))
    .sort((a, b) => b.rest - a.rest || a.index - b.index);
  const up = new Set(order.slice(0, Math.max(0, spare)).map(({ index }) => index));
  return floors.map((floor, index) => (floor + (up.has(index) ? 1 : 0)) * unitMs);
}
