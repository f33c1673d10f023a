import type { StampPlace } from '../../time/stamp.js';
import { escaped } from '../escaped.js';

/** The hour and minute of a pattern without seconds, and the text before them. */
const HOUR_AND_MINUTE = /^([^{}]*)\{(hour|night-hour)\}(:|\.)\{minute\}(?!\3\{second\})/;
/** Fraction of numbers in the hour's place that are not hours. */
const BEYOND = 0.03;
const FIRST_BEYOND = { hour: 24, 'night-hour': 48 } as const;

/**
 * Whether a pattern reads as hours and minutes what goes up to 59 in both places: minutes and seconds, whose hour is
 * stated elsewhere.
 */
export function takesMinutesForHours(source: string, at: StampPlace, lines: readonly string[]): boolean {
  const [, front = '', token, mark = ''] = HOUR_AND_MINUTE.exec(source) ?? [];
  if (token !== 'hour' && token !== 'night-hour') return false;
  const form = new RegExp(
    `${at === 'start' ? `^${escaped(front).replace(/\s+/g, '\\s+')}` : '(?<![\\d:.])'}(\\d\\d)${escaped(mark)}[0-5]\\d(?![\\d:])`,
    'u',
  );
  const numbers = lines.flatMap((line) => form.exec(line)?.[1] ?? []).map(Number);
  const beyond = numbers.filter((number) => number >= FIRST_BEYOND[token]);
  return beyond.length > BEYOND * numbers.length;
}
