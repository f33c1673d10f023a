/**
 * Guiding was rough over the exposure: its RMS exceeds the limit in the train's own pixels.
 */
import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';
import { starsAreRound, swelling, trailing } from './evidence/pixels.js';
import { clearedText } from './evidence/words.js';
import { roughGuidingArcsec } from './facts.js';

export const roughGuiding: LossCause = {
  id: 'rough-guiding',
  judge(facts, rules) {
    const { guidingRmsArcsec, pixelScaleArcsec } = facts;
    if (guidingRmsArcsec === null || pixelScaleArcsec === null) return null;
    if (guidingRmsArcsec <= roughGuidingArcsec(pixelScaleArcsec, rules)) return null;
    // What its stars are worth, 'trailed' and 'swollen' say.
    if (trailing(facts, rules) !== null || swelling(facts, rules) !== null) return null;
    return starsAreRound(facts, rules) ? { clearedBy: 'pixels' } : 'doubtful';
  },
  instances(frame, { guiding, train, rules }, verdict) {
    if (guiding === null || train.pixelScaleArcsec === undefined) return [];
    const limit = roughGuidingArcsec(train.pixelScaleArcsec, rules);
    const rms = guiding.jitterRmsArcsec ?? guiding.totalRmsArcsec;
    return [
      {
        kind: 'rough-guiding',
        verdict,
        span: frame.exposure,
        overlapMs: durationMs(frame.exposure),
        evidence:
          `guiding RMS ${rms.toFixed(2)}″ over ${guiding.samples} ` +
          `samples${offsetText(guiding.offsetArcsec)}, above the limit of ${limit.toFixed(2)}″ ` +
          `(${rules.roughGuidingPixels} px of ${train.id})`,
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
  whyCleared(_frame, around, by) {
    if (around.guiding === null) throw new TypeError('rough guiding was cleared, and nothing guided');
    const rms = around.guiding.jitterRmsArcsec ?? around.guiding.totalRmsArcsec;
    return clearedText(`guiding RMS ${rms.toFixed(2)}″`, around, by);
  },
};

/** The steady offset, where it is worth a word. */
function offsetText(offsetArcsec: number | undefined): string {
  return offsetArcsec !== undefined && offsetArcsec >= 0.1 ? ` about a mean ${offsetArcsec.toFixed(2)}″ off` : '';
}
