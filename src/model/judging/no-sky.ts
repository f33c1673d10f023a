/**
 * The frame shows no sky: saturated or blank everywhere, or without stars and far darker or brighter than comparable
 * frames. A cap, a closed shutter or roof, a lamp, a calibration frame among the lights.
 */
import { decimal, percent, type Rules } from '../../vocabulary/index.js';
import type { LossCause } from './cause.js';
import type { ExposureFacts } from './facts.js';
import { wholeFrame } from './evidence/whole-frame.js';

type PixelFacts = Pick<ExposureFacts, 'stars' | 'usual'>;

/** Fraction of saturated pixels that leaves no sky. Common practice, no source. */
const SATURATED_SHARE = 0.5;
/**
 * Noise relative to the usual, the square root of the light: no cloud removes seven eighths of the sky's light, or
 * multiplies it by twelve. Common practice, no source.
 */
const DARK_NOISE = 0.35;
const BRIGHT_NOISE = 3.5;
/** Less than any camera’s read noise: rounding of a constant value. */
const BLANK_NOISE = 0.05;
const BLANK = 'its pixels all have one value: no sky (a shutter that stayed closed, a camera that failed)';

/** In what way a frame shows no sky, in words; `null` if it may. */
export function noSkyIn({ stars, usual }: PixelFacts, rules: Rules): string | null {
  if (stars === null || stars.count >= rules.minimumStars) return null;
  if (stars.saturated >= SATURATED_SHARE)
    return `${percent(stars.saturated)} of its pixels are saturated: no sky (a lamp, daylight, a camera that failed)`;
  if (stars.count === 0 && stars.noise === 0) return BLANK;
  // If there are no stars elsewhere, the frame does not differ from comparable ones.
  if (usual === null || usual.sky === null || usual.count === null || usual.count < rules.minimumStars) return null;
  if (stars.count >= rules.dimmedLostStars * usual.count) return null;
  const { background, noise } = usual.sky;
  if (stars.noise < BLANK_NOISE * noise) return BLANK;
  const words = `noise ${decimal(stars.noise, 1)} ADU where ${decimal(noise, 1)} is usual`;
  if (stars.noise < DARK_NOISE * noise && stars.background < background)
    return `no stars, and hardly any light of the sky: ${words} (a cap, a closed roof, a dark among the lights)`;
  return stars.noise > BRIGHT_NOISE * noise && stars.background > background
    ? `no stars, and many times the light of the sky: ${words} (a lamp, daylight, a flat among the lights)`
    : null;
}

export const noSky: LossCause = {
  id: 'no-sky',
  judge: (facts, rules) => (noSkyIn(facts, rules) === null ? null : 'lost'),
  instances(frame, around, verdict) {
    const evidence = noSkyIn(around, around.rules);
    if (evidence === null) return [];
    return [wholeFrame('no-sky', frame, verdict, evidence)];
  },
};
