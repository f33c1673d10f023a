/**
 * The target stood below the horizon's line or the minimum altitude at mid-exposure.
 */
import { durationMs } from '../../model/index.js';
import type { LossCause } from './cause.js';

export const low: LossCause = {
  id: 'low',
  applies(frame, { sky }) {
    if (sky === null || sky.altitudeDeg >= sky.limitDeg) return [];
    return [
      {
        kind: 'low',
        verdict: 'doubtful',
        span: frame.exposure,
        overlapMs: durationMs(frame.exposure),
        evidence: `the target stood at ${sky.altitudeDeg.toFixed(1)}° at mid-exposure, below the limit of ${sky.limitDeg.toFixed(0)}° there`,
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
};
