/**
 * The Sun stood above the chosen twilight's limit at mid-exposure.
 */
import { durationMs, type DarknessKind } from '../../model/index.js';
import type { LossCause } from './cause.js';

/** Altitude of the Sun's centre that ends each twilight, degrees (definition in common use by almanacs). */
const LIMIT_DEG: Readonly<Record<DarknessKind, number>> = { civil: -6, nautical: -12, astronomical: -18 };

export const twilight: LossCause = {
  id: 'twilight',
  label: 'twilight',
  applies(frame, { sky, darkness }) {
    const limit = LIMIT_DEG[darkness];
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
