/**
 * The stars are larger than usual: defocus, bad seeing, wind, dew.
 */
import { counted, decimal, percent } from '../../vocabulary/index.js';
import { sensorScaleArcsec } from '../gathered.js';
import type { LossCause } from './cause.js';
import { shapeless, sizeRatio, sparseRatio, swelling } from './evidence/pixels.js';
import { usualOf } from './evidence/words.js';
import { wholeFrame } from './evidence/whole-frame.js';

export const swollen: LossCause = {
  id: 'swollen',
  judge: (facts, rules) => swelling(facts, rules),
  instances(frame, around, verdict) {
    const { rules, train, usual, stars, worseFocus } = around;
    const scale = sensorScaleArcsec(train);
    const inUnits = (px: number): string =>
      scale === undefined ? `${decimal(px, 2)} px` : `${decimal(px * scale, 2)}″`;
    const fwhm = stars?.fwhm ?? null;
    const sparse = sparseRatio(around, rules);
    const ratio = sparse ?? sizeRatio(around, rules);
    const few =
      sparse === null || stars === null
        ? ''
        : `; of only ${counted(stars.count, 'star')}, and fewer than ${rules.minimumStars} make no frame lost`;
    const without = shapeless(around, rules);
    const evidence = without
      ? `none of ${counted(without.count, 'star')} has a width that can be measured, where ` +
        `${inUnits(without.usualFwhm)} is usual (${usualOf(usual)})`
      : fwhm === null
        ? null
        : `FWHM ${inUnits(fwhm)}, ${decimal(ratio, 2)} × the usual (${usualOf(usual)}); doubtful above ` +
          `${decimal(rules.swollenDoubtfulRatio, 2)} ×, lost above ${decimal(rules.swollenLostRatio, 2)} ×${few}`;
    if (evidence === null) return [];
    const cause = wholeFrame(
      'swollen',
      frame,
      verdict,
      worseFocus === undefined
        ? evidence
        : `${evidence}; the refocus before it made the stars ${percent(worseFocus.growth)} larger`,
    );
    return [worseFocus === undefined ? cause : { ...cause, sources: [...cause.sources, ...worseFocus.run.sources] }];
  },
};
