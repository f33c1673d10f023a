/** What the pixels of one exposure say of its stars, against the usual of its group. */
import type { Rules } from '../../../vocabulary/index.js';
import type { ExposureFacts } from '../facts.js';

/** Stars agree in direction above this resultant length. Common practice, no source. */
export const AGREEMENT_MIN = 0.6;

type PixelFacts = Pick<ExposureFacts, 'stars' | 'usual'>;

/** Shape and size of an exposure's stars beside the usual; a/b and px. */
export interface StarShape {
  readonly elongation: number;
  readonly agreement: number;
  readonly fwhm: number;
  readonly usualElongation: number;
  readonly usualFwhm: number;
}

/** The shapes, where the pixels speak: enough stars, and a usual to compare with. */
export function starShape({ stars, usual }: PixelFacts, rules: Rules): StarShape | null {
  if (stars === null || usual === null || stars.count < rules.minimumStars) return null;
  const { elongation, agreement, fwhm } = stars;
  if (elongation === null || agreement === null || fwhm === null) return null;
  if (usual.elongation === null || usual.fwhm === null) return null;
  return { elongation, agreement, fwhm, usualElongation: usual.elongation, usualFwhm: usual.fwhm };
}

/** What the axis ratio makes of an exposure; round stars drawn out by optics or noise do not agree in direction. */
export function trailing(facts: PixelFacts, rules: Rules): 'doubtful' | 'lost' | null {
  const shape = starShape(facts, rules);
  if (shape === null || shape.agreement <= AGREEMENT_MIN) return null;
  const exceeds = (limit: number, ratio: number): boolean =>
    shape.elongation > limit && shape.elongation > ratio * shape.usualElongation;
  if (exceeds(rules.trailedLostElongation, rules.trailedLostRatio)) return 'lost';
  return exceeds(rules.trailedDoubtfulElongation, rules.trailedDoubtfulRatio) ? 'doubtful' : null;
}

/** FWHM against the usual; along a trail it is taken across, so that one harm is not two causes. */
export function sizeRatio(facts: PixelFacts, rules: Rules): number | null {
  const { stars, usual } = facts;
  if (stars === null || usual === null || stars.count < rules.minimumStars) return null;
  if (stars.fwhm === null || usual.fwhm === null) return null;
  const shape = trailing(facts, rules) === null ? null : starShape(facts, rules);
  const along = shape === null ? 1 : Math.sqrt(shape.elongation / shape.usualElongation);
  return stars.fwhm / along / usual.fwhm;
}

/** How many stars have no width, and the width in px that is usual. */
export interface Shapeless {
  readonly count: number;
  readonly usualFwhm: number;
}

/**
 * Stars are there and none of them has a width that can be measured, where its like have one: so swollen that they run
 * into one another, or no stars at all.
 */
export function shapeless({ stars, usual }: PixelFacts, rules: Rules): Shapeless | null {
  if (stars === null || stars.fwhm !== null || stars.count < rules.minimumStars) return null;
  if (usual === null || usual.fwhm === null) return null;
  return { count: stars.count, usualFwhm: usual.fwhm };
}

/** With fewer stars than this a median is one star's. Common practice, no source. */
const FEWEST_STARS = 5;

/**
 * FWHM against the usual where too few stars are left to lose a frame by, while its like have enough: what swells sinks
 * into the sky, so that the worst frames have the fewest stars. `null` where it is not above the limit of lost frames.
 */
export function sparseRatio({ stars, usual }: PixelFacts, rules: Rules): number | null {
  if (stars === null || stars.count < FEWEST_STARS || stars.count >= rules.minimumStars) return null;
  if (usual === null || usual.count === null || usual.count < rules.minimumStars) return null;
  if (stars.fwhm === null || usual.fwhm === null) return null;
  const ratio = stars.fwhm / usual.fwhm;
  return ratio > rules.swollenLostRatio ? ratio : null;
}

/** What the star size makes of an exposure. */
export function swelling(facts: PixelFacts, rules: Rules): 'doubtful' | 'lost' | null {
  if (shapeless(facts, rules) !== null || sparseRatio(facts, rules) !== null) return 'doubtful';
  const ratio = sizeRatio(facts, rules);
  if (ratio === null || ratio <= rules.swollenDoubtfulRatio) return null;
  return ratio > rules.swollenLostRatio ? 'lost' : 'doubtful';
}

/**
 * Whether the stars stand in no longer trail than is usual: what a jump that hardly any light saw leaves of them. That
 * jump cannot have drawn them out, so a usual that is itself trailed does not speak against it.
 */
export function starsAreUsual(facts: PixelFacts, rules: Rules): boolean {
  return starShape(facts, rules) !== null && trailing(facts, rules) === null;
}

/**
 * Whether the stars show that nothing drew them out. The limit is absolute: on a night that is bad as a whole the usual
 * is as bad as the frame, and agreeing trails as long as the usual clear nothing.
 */
export function starsAreRound(facts: PixelFacts, rules: Rules): boolean {
  const shape = starShape(facts, rules);
  return shape !== null && (shape.elongation <= rules.trailedDoubtfulElongation || shape.agreement <= AGREEMENT_MIN);
}
