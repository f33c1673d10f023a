/**
 * The Sun stood above the chosen twilight's limit at mid-exposure.
 */
import { decimal, TWILIGHTS } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';

export const twilight: LossCause = {
  id: 'twilight',
  judge: ({ sky }) => (sky !== null && sky.sunAltitudeDeg > sky.sunLimitDeg ? 'doubtful' : null),
  instances(frame, { sky, darkness }, verdict) {
    if (sky === null) return [];
    return [
      {
        kind: 'twilight',
        verdict,
        span: frame.exposure,
        overlapMs: durationMs(frame.exposure),
        evidence:
          `the Sun stood at ${decimal(sky.sunAltitudeDeg, 1)}° at mid-exposure, above the ` +
          `${decimal(TWILIGHTS[darkness].sunAltitudeDeg, 0)}° of ${darkness} darkness`,
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
};
