/**
 * The frame shows no sky: saturated or blank all over, or without stars and far darker or brighter than its like. A
 * cap, a closed shutter or roof, a lamp, a calibration frame among the lights.
 */
import { decimal, percent, type Rules } from '../../vocabulary/index.js';
import type { LossCause } from './cause.js';
import type { ExposureFacts } from './facts.js';
import { wholeFrame } from './evidence/whole-frame.js';

type PixelFacts = Pick<ExposureFacts, 'stars' | 'usual'>;

/** Of the pixels, so many at the sensor's limit leave no sky. Common practice, no source. */
const SATURATED_SHARE = 0.5;
/**
 * Noise against the usual, of light its square root: no cloud takes an eighth part and less of the sky's light, or
 * sends twelve times as much. Common practice, no source.
 */
const DARK_NOISE = 0.35;
const BRIGHT_NOISE = 3.5;
/** Less than any camera’s read noise: what rounding leaves of one value. */
const BLANK_NOISE = 0.05;
const BLANK = 'its pixels all have one value: no sky (a shutter that stayed closed, a camera that failed)';

/** In what way a frame shows no sky, in words; `null` where it may be one of the sky. */
export function noSkyIn({ stars, usual }: PixelFacts, rules: Rules): string | null {
  if (stars === null || stars.count >= rules.minimumStars) return null;
  if (stars.saturated >= SATURATED_SHARE)
    return `${percent(stars.saturated)} of its pixels are saturated: no sky (a lamp, daylight, a camera that failed)`;
  if (stars.count === 0 && stars.noise === 0) return BLANK;
  // Without stars elsewhere there is nothing to tell this frame from its like.
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
