/**
 * The Sun stood above the chosen twilight's limit at mid-exposure.
 */
import { decimal, TWILIGHTS } from '../../vocabulary/index.js';
import type { LossCause } from './cause.js';
import { wholeFrame } from './evidence/whole-frame.js';

export const twilight: LossCause = {
  id: 'twilight',
  judge: ({ sky }) => (sky !== null && sky.sunAltitudeDeg > sky.sunLimitDeg ? 'doubtful' : null),
  instances(frame, { sky, darkness }, verdict) {
    if (sky === null) return [];
    return [
      wholeFrame(
        'twilight',
        frame,
        verdict,
        `the Sun was at ${decimal(sky.sunAltitudeDeg, 1)}° at mid-exposure, above the ` +
          `${decimal(TWILIGHTS[darkness].sunAltitudeDeg, 0)}° of ${darkness} darkness`,
      ),
    ];
  },
};
