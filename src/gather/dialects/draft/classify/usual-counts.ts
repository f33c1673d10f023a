import type { EventName } from '../../../../model/index.js';

/**
 * How many lines tell such a thing in a night (common practice, no source): one of a kind that comes ten times as
 * often, or as seldom, is hardly one.
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
/** What comes so many times as often as such a thing does is none, unless words say so. */
const FAR_MORE = 3;

/** How far from what such a thing comes to in a night: 0 within it, less beyond. */
export function asOften(event: EventName, lines: number): number {
  const [, fewest = 1, most = Infinity] = LINES.find(([one]) => one.test(event)) ?? [];
  return -Math.log(Math.max(1, fewest / lines, lines / most));
}

/** Whether lines come far more often in a night than such a thing does. */
export function comesTooOften(event: EventName, lines: number): boolean {
  const [, , most = Infinity] = LINES.find(([one]) => one.test(event)) ?? [];
  return lines > FAR_MORE * most;
}
