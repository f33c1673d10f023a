import type { EventName } from '../../../../model/index.js';

/**
 * Usual number of lines per night for each event (common practice, no source): a kind ten times as frequent, or as
 * rare, is hardly it.
 */
const LINES: readonly (readonly [event: RegExp, fewest: number, most: number])[] = [
  [/^flip/, 1, 1],
  [/^hold/, 1, 2],
  [/^slew/, 1, 4],
  [/^centre/, 2, 5],
  [/^guiding-(?:begin|end)/, 1, 5],
  [/^guiding-rest/, 2, 7],
  [/^(?:star-gap|exposure-abort)/, 1, 6],
  [/^focus/, 1, 16],
  [/^filter/, 2, 22],
  [/^cooler/, 1, 40],
  [/^settling/, 4, 60],
  [/^dither-(?:begin|end)/, 10, 60],
  [/^dither-ready/, 8, 80],
  [/^(?:exposure|frame)/, 8, 300],
];
/** A kind this many times as frequent as usual is ruled out unless words confirm it. */
const FAR_MORE = 3;

/** Deviation from the usual number per night: 0 within the range, negative beyond. */
export function asOften(event: EventName, lines: number): number {
  const [, fewest = 1, most = Infinity] = LINES.find(([one]) => one.test(event)) ?? [];
  return -Math.log(Math.max(1, fewest / lines, lines / most));
}

/** Whether the number of lines is far above the usual number per night. */
export function comesTooOften(event: EventName, lines: number): boolean {
  const [, , most = Infinity] = LINES.find(([one]) => one.test(event)) ?? [];
  return lines > FAR_MORE * most;
}
