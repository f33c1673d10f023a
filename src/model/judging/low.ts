/**
 * The target was below the local horizon or the minimum altitude at mid-exposure. In daylight time or place is wrong,
 * and the altitude with it.
 */
import { isDaylight } from '../sky.js';
import type { LossCause } from './cause.js';
import { wholeFrame } from './evidence/whole-frame.js';

export const low: LossCause = {
  id: 'low',
  judge: ({ sky }) => (sky !== null && sky.altitudeDeg < sky.limitDeg && !isDaylight(sky) ? 'doubtful' : null),
  instances(frame, { sky }, verdict) {
    if (sky === null) return [];
    return [
      wholeFrame(
        'low',
        frame,
        verdict,
        `the target was at ${sky.altitudeDeg.toFixed(1)}° at mid-exposure, below the limit of ` +
          `${sky.limitDeg.toFixed(0)}° there`,
      ),
    ];
  },
};
