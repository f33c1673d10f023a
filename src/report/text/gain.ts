import type { ReplayGain } from '../../model/index.js';

const MINUTE = 60_000;

/** A gain in whole minutes with its sign: `+34 m`, `−12 m`, `0 m`. */
export function signedMinutes(ms: number): string {
  const minutes = Math.round(ms / MINUTE);
  return `${minutes > 0 ? '+' : minutes < 0 ? '−' : ''}${Math.abs(minutes)} m`;
}

/** The spread of a gain: `+29 to +39 m`, and one figure where it rounds to one. */
export function gainRange({ lowMs, highMs }: ReplayGain): string {
  const [low, high] = [signedMinutes(lowMs), signedMinutes(highMs)];
  return low === high ? low : `${low.replace(' m', '')} to ${high}`;
}
