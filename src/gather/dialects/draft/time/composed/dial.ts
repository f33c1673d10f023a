import type { StampGuess } from '../guess.js';
import { timesOf } from '../times-of.js';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** What comes after half past twelve on a dial is before half past one. */
const BEFORE = { from: 12.5, to: 13 } as const;
const BEHIND = { from: 1, to: 1.5 } as const;
/** Other steps go forward. */
const FORWARD = 0.98;
const JITTER_MS = 10_000;

/**
 * A stamp whose hours are those of a dial of twelve: none is 0 or beyond 12, and one follows twelve. Unchanged where
 * the log does not show that.
 */
export function onDial(stamp: StampGuess, texts: readonly { readonly text: string }[]): StampGuess {
  if (!stamp.pattern.includes('{hour}') || /\{am-pm\}|\{offset\}/.test(stamp.pattern) || stamp.more !== undefined)
    return stamp;
  const times = timesOf(stamp, texts).map((ms) => ms - Math.floor(ms / DAY_MS) * DAY_MS);
  const hours = times.map((ms) => ms / HOUR_MS);
  if (hours.some((hour) => hour < 1 || hour >= 13)) return stamp;
  const turns = hours.filter((hour, i) => isIn(hour, BEHIND) && isIn(hours[i - 1] ?? NaN, BEFORE)).length;
  const forward = times.filter((ms, i) => i > 0 && ms >= (times[i - 1] ?? NaN) - JITTER_MS).length;
  if (turns !== 1 || forward + turns < FORWARD * (times.length - 1)) return stamp;
  return { ...stamp, pattern: stamp.pattern.replace('{hour}', '{hour12}') };
}

function isIn(hour: number, { from, to }: { readonly from: number; readonly to: number }): boolean {
  return hour >= from && hour < to;
}
