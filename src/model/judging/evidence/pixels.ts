/** What the pixels of one exposure show about its stars, compared with the usual values of its group. */
import type { Rules } from '../../../vocabulary/index.js';
import type { ExposureFacts } from '../facts.js';

/** Stars agree in direction above this resultant length. Common practice, no source. */
export const AGREEMENT_MIN = 0.6;

type PixelFacts = Pick<ExposureFacts, 'stars' | 'usual'>;

/** Shape and size of an exposure's stars, and the usual values; a/b and px. */
export interface StarShape {
  readonly elongation: number;
  readonly agreement: number;
  readonly fwhm: number;
  readonly usualElongation: number;
  readonly usualFwhm: number;
}

/** The shapes, if conclusive: enough stars, and usual values for comparison. */
export function starShape({ stars, usual }: PixelFacts, rules: Rules): StarShape | null {
  if (stars === null || usual === null || stars.count < rules.minimumStars) return null;
  const { elongation, agreement, fwhm } = stars;
  if (elongation === null || agreement === null || fwhm === null) return null;
  if (usual.elongation === null || usual.fwhm === null) return null;
  return { elongation, agreement, fwhm, usualElongation: usual.elongation, usualFwhm: usual.fwhm };
}

/** The verdict of the axis ratio on an exposure; round stars elongated by optics or noise have no common direction. */
export function trailing(facts: PixelFacts, rules: Rules): 'doubtful' | 'lost' | null {
  const shape = starShape(facts, rules);
  if (shape === null || shape.agreement <= AGREEMENT_MIN) return null;
  const exceeds = (limit: number, ratio: number): boolean =>
    shape.elongation > limit && shape.elongation > ratio * shape.usualElongation;
  if (exceeds(rules.trailedLostElongation, rules.trailedLostRatio)) return 'lost';
  return exceeds(rules.trailedDoubtfulElongation, rules.trailedDoubtfulRatio) ? 'doubtful' : null;
}

/** FWHM relative to the usual; measured across a trail, so that one harm is not two causes. */
export function sizeRatio(facts: PixelFacts, rules: Rules): number | null {
  const { stars, usual } = facts;
  if (stars === null || usual === null || stars.count < rules.minimumStars) return null;
  if (stars.fwhm === null || usual.fwhm === null) return null;
  const shape = trailing(facts, rules) === null ? null : starShape(facts, rules);
  const along = shape === null ? 1 : Math.sqrt(shape.elongation / shape.usualElongation);
  return stars.fwhm / along / usual.fwhm;
}

/** Number of stars without a width, and the usual width in px. */
export interface Shapeless {
  readonly count: number;
  readonly usualFwhm: number;
}

/**
 * Stars without a measurable width, although comparable frames have one: so swollen that they merge, or not stars at
 * all.
 */
export function shapeless({ stars, usual }: PixelFacts, rules: Rules): Shapeless | null {
  if (stars === null || stars.fwhm !== null || stars.count < rules.minimumStars) return null;
  if (usual === null || usual.fwhm === null) return null;
  return { count: stars.count, usualFwhm: usual.fwhm };
}

/** With fewer stars than this a median depends on a single star. Common practice, no source. */
const FEWEST_STARS = 5;

/**
 * FWHM relative to the usual if there are too few stars to declare the frame lost, although comparable frames have
 * enough: swollen stars sink into the sky, so that the worst frames have the fewest. `null` unless above the limit for
 * lost frames.
 */
export function sparseRatio({ stars, usual }: PixelFacts, rules: Rules): number | null {
  if (stars === null || stars.count < FEWEST_STARS || stars.count >= rules.minimumStars) return null;
  if (usual === null || usual.count === null || usual.count < rules.minimumStars) return null;
  if (stars.fwhm === null || usual.fwhm === null) return null;
  const ratio = stars.fwhm / usual.fwhm;
  return ratio > rules.swollenLostRatio ? ratio : null;
}

/** The verdict of the star size on an exposure. */
export function swelling(facts: PixelFacts, rules: Rules): 'doubtful' | 'lost' | null {
  if (shapeless(facts, rules) !== null || sparseRatio(facts, rules) !== null) return 'doubtful';
  const ratio = sizeRatio(facts, rules);
  if (ratio === null || ratio <= rules.swollenDoubtfulRatio) return null;
  return ratio > rules.swollenLostRatio ? 'lost' : 'doubtful';
}

/**
 * Whether the stars are no more trailed than usual: what remains of a jump that hardly any light saw. That jump cannot
 * have elongated them, so a usual value that is itself trailed is no objection.
 */
export function starsAreUsual(facts: PixelFacts, rules: Rules): boolean {
  return starShape(facts, rules) !== null && trailing(facts, rules) === null && facts.stars?.doubled === undefined;
}

/**
 * Whether the stars show that nothing elongated them. The limit is absolute: on a night that is bad throughout the
 * usual value is as bad as the frame, and consistent trails as long as the usual clear nothing.
 */
export function starsAreRound(facts: PixelFacts, rules: Rules): boolean {
  if (facts.stars?.doubled !== undefined) return false;
  const shape = starShape(facts, rules);
  return shape !== null && (shape.elongation <= rules.trailedDoubtfulElongation || shape.agreement <= AGREEMENT_MIN);
}
