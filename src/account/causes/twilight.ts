/**
 * The Sun stood above the chosen twilight's limit at mid-exposure.
 */
import { durationMs, TWILIGHTS } from '../../model/index.js';
import type { LossCause } from './cause.js';

export const twilight: LossCause = {
  id: 'twilight',
  applies(frame, { sky, darkness }) {
    const limit = TWILIGHTS[darkness].sunAltitudeDeg;
    if (sky === null || sky.sunAltitudeDeg <= limit) return [];
    return [
      {
        kind: 'twilight',
        verdict: 'doubtful',
        span: frame.exposure,
        overlapMs: durationMs(frame.exposure),
        evidence: `the Sun stood at ${sky.sunAltitudeDeg.toFixed(1).replace('-', '−')}° at mid-exposure, above the −${-limit}° of ${darkness} darkness`,
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
};
