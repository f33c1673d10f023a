/**
 * The stars are larger than usual: defocus, bad seeing, wind, dew.
 */
import { decimal } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';
import { sizeRatio, swelling } from './evidence/pixels.js';
import { usualOf } from './evidence/words.js';

export const swollen: LossCause = {
  id: 'swollen',
  judge: (facts, rules) => swelling(facts, rules),
  instances(frame, around, verdict) {
    const { rules, train, usual, stars } = around;
    const fwhm = stars?.fwhm ?? null;
    if (fwhm === null) return [];
    const ratio = sizeRatio(around, rules);
    const size =
      train.pixelScaleArcsec === undefined ? `${decimal(fwhm, 2)} px` : `${decimal(fwhm * train.pixelScaleArcsec, 2)}″`;
    return [
      {
        kind: 'swollen',
        verdict,
        span: frame.exposure,
        overlapMs: durationMs(frame.exposure),
        evidence: `FWHM ${size}, ${decimal(ratio, 2)} × the usual (${usualOf(usual)}); doubtful above ${decimal(rules.swollenDoubtfulRatio, 2)} ×, lost above ${decimal(rules.swollenLostRatio, 2)} ×`,
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
};
