import { signedDuration, type ReplayGain } from '../../model/index.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
/** Axes with a larger range count hours. */
const MOST_MINUTES = 120;

/** The range of a gain: `+29 to +39 min`, `+48 min to +1.1 h`, and one figure if it rounds to one. */
export function gainRange({ lowMs, highMs }: ReplayGain): string {
  const [low, high] = [signedDuration(lowMs), signedDuration(highMs)];
  if (low === high) return low;
  const shared = [' min', ' h'].find((unit) => low.endsWith(unit) && high.endsWith(unit));
  return `${shared === undefined ? low : low.slice(0, -shared.length)} to ${high}`;
}

/** The unit of an axis of gains. */
export interface GainUnit {
  readonly ms: number;
  /** The unit's name in full. */
  readonly name: 'minutes' | 'hours';
  readonly digits: 0 | 1;
}

/** The unit for an axis of these gains: minutes, or hours if minutes would be long figures. */
export function gainUnit(gains: readonly ReplayGain[]): GainUnit {
  const widest = Math.max(0, ...gains.flatMap(({ lowMs, highMs }) => [Math.abs(lowMs), Math.abs(highMs)]));
  return widest > MOST_MINUTES * MINUTE
    ? { ms: HOUR, name: 'hours', digits: 1 }
    : { ms: MINUTE, name: 'minutes', digits: 0 };
}
