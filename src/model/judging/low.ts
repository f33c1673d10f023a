/**
 * The target stood below the horizon's line or the minimum altitude at mid-exposure.
 */
import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';

export const low: LossCause = {
  id: 'low',
  judge: ({ sky }) => (sky !== null && sky.altitudeDeg < sky.limitDeg ? 'doubtful' : null),
  instances(frame, { sky }, verdict) {
    if (sky === null) return [];
    return [
      {
        kind: 'low',
        verdict,
        span: frame.exposure,
        overlapMs: durationMs(frame.exposure),
        evidence:
          `the target stood at ${sky.altitudeDeg.toFixed(1)}° at mid-exposure, below the limit of ` +
          `${sky.limitDeg.toFixed(0)}° there`,
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
};
