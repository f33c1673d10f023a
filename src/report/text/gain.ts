import { signedMinutes, type ReplayGain } from '../../model/index.js';

/** The spread of a gain: `+29 to +39 min`, and one figure where it rounds to one. */
export function gainRange({ lowMs, highMs }: ReplayGain): string {
  const [low, high] = [signedMinutes(lowMs), signedMinutes(highMs)];
  return low === high ? low : `${low.replace(' min', '')} to ${high}`;
}
