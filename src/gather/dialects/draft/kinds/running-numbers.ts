import type { Slot } from './kind.js';
import { numberIn } from './values.js';

const MIN_LINES = 6;

/** Whether a number only grows from line to line: it counts the lines, and measures nothing. */
export function isRunning({ perLine }: Slot): boolean {
  const own = perLine.map(numberIn);
  return own.length >= MIN_LINES && own.every((value, i) => value >= 0 && (i === 0 || value > (own[i - 1] ?? NaN)));
}
