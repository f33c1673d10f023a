/**
 * Guiding was rough over the exposure: its RMS exceeds the limit in the train's own pixels.
 */
import type { Rules } from '../../vocabulary/index.js';
import type { LossCause } from './cause.js';
import { starsAreRound, swelling, trailing } from './evidence/pixels.js';
import { clearedText } from './evidence/words.js';
import { type ExposureFacts, roughGuidingArcsec } from './facts.js';
import { wholeFrame } from './evidence/whole-frame.js';

/**
 * Whether light is missing because it is elsewhere: guiding strayed farther than a star's width, and the stars have
 * lost light. The remaining ones may be round: they are from the time in which the mount was still.
 */
function strayed(
  {
    guidingRmsArcsec,
    pixelScaleArcsec,
    stars,
    usual,
  }: Pick<ExposureFacts, 'guidingRmsArcsec' | 'pixelScaleArcsec' | 'stars' | 'usual'>,
  rules: Rules,
): boolean {
  const fwhm = usual?.fwhm ?? stars?.fwhm ?? null;
  if (guidingRmsArcsec === null || pixelScaleArcsec === null || fwhm === null) return false;
  const flux = stars?.flux ?? null;
  return guidingRmsArcsec >= fwhm * pixelScaleArcsec && flux !== null && flux < rules.dimmedDoubtfulFlux;
}

export const roughGuiding: LossCause = {
  id: 'rough-guiding',
  judge(facts, rules) {
    const { guidingRmsArcsec, pixelScaleArcsec } = facts;
    if (guidingRmsArcsec === null || pixelScaleArcsec === null) return null;
    if (guidingRmsArcsec <= roughGuidingArcsec(pixelScaleArcsec, rules)) return null;
    if (strayed(facts, rules)) return 'lost';
    // Its stars are judged by 'trailed' and 'swollen'.
    if (trailing(facts, rules) !== null || swelling(facts, rules) !== null) return null;
    return starsAreRound(facts, rules) ? { clearedBy: 'pixels' } : 'doubtful';
  },
  instances(frame, { guiding, train, rules }, verdict) {
    if (guiding === null || train.pixelScaleArcsec === undefined) return [];
    const limit = roughGuidingArcsec(train.pixelScaleArcsec, rules);
    const rms = guiding.jitterRmsArcsec ?? guiding.totalRmsArcsec;
    return [
      wholeFrame(
        'rough-guiding',
        frame,
        verdict,
        `guiding RMS ${rms.toFixed(2)}″ over ${guiding.samples} ` +
          `samples${offsetText(guiding.offsetArcsec)}, above the limit of ${limit.toFixed(2)}″ ` +
          `(${rules.roughGuidingPixels} px of ${train.id})` +
          (verdict === 'lost'
            ? '; wider than a star, and the light missing from the stars lies where the guiding ' + 'strayed'
            : ''),
      ),
    ];
  },
  whyCleared(_frame, around, by) {
    if (around.guiding === null) throw new TypeError('rough guiding was cleared, but nothing guided');
    const rms = around.guiding.jitterRmsArcsec ?? around.guiding.totalRmsArcsec;
    return clearedText(`guiding RMS ${rms.toFixed(2)}″`, around, by);
  },
};

/** The constant offset, if worth mentioning. */
function offsetText(offsetArcsec: number | undefined): string {
  return offsetArcsec !== undefined && offsetArcsec >= 0.1 ? ` about a mean ${offsetArcsec.toFixed(2)}″ off` : '';
}
