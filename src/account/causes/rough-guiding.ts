/**
 * Guiding was rough over the exposure: its RMS exceeds the limit in the train's own pixels.
 */
import { durationMs } from '../../model/index.js';
import type { LossCause } from './cause.js';

export const roughGuiding: LossCause = {
  id: 'rough-guiding',
  applies(frame, { guiding, train, rules }) {
    if (guiding === null || train.pixelScaleArcsec === undefined) return [];
    const limit = rules.roughGuidingPixels * train.pixelScaleArcsec;
    if (guiding.totalRmsArcsec <= limit) return [];
    return [
      {
        kind: 'rough-guiding',
        verdict: 'doubtful',
        span: frame.exposure,
        overlapMs: durationMs(frame.exposure),
        evidence: `guiding RMS ${guiding.totalRmsArcsec.toFixed(2)}″ over ${guiding.samples} samples, above the limit of ${limit.toFixed(2)}″ (${rules.roughGuidingPixels} px of ${train.id})`,
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
};
