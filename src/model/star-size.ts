/** Star sizes of headers on one scale. */
import type { HeaderFacts } from './frame.js';
import { sensorScaleArcsec, type Train } from './gathered.js';
import type { FrameStars } from './stars.js';

/**
 * FWHM of a Gaussian star from its half-flux radius: the radius at which a Gaussian has fallen to half, and the radius
 * that contains half of its flux, are both σ·√(2 ln 2), so that the full width is exactly twice the radius. Real stars
 * have wider wings, and their half-flux radius is somewhat more than half of their FWHM: an approximation.
 */
export const FWHM_PER_HALF_FLUX_RADIUS = 2;

/** The note wherever sizes of these frames are shown as FWHM; empty if every header states one. */
export function halfFluxNote(frames: readonly { readonly header?: Pick<HeaderFacts, 'starSize'> }[]): string {
  return frames.some(({ header }) => header?.starSize?.measure === 'half-flux')
    ? `half-flux radii times ${FWHM_PER_HALF_FLUX_RADIUS}, as of a Gaussian star: an approximation`
    : '';
}

/** FWHM of a header's stars, pixels; `undefined` without a size, or if its measure is unknown. */
export function fwhmPixels(header: Pick<HeaderFacts, 'starSize'> | undefined): number | undefined {
  const size = header?.starSize;
  if (size === undefined || size.measure === 'unknown') return undefined;
  return size.measure === 'fwhm' ? size.pixels : FWHM_PER_HALF_FLUX_RADIUS * size.pixels;
}

/**
 * FWHM of a header's stars, arcseconds.
 *
 * @param pixelScaleArcsec of a pixel as stored
 */
export function fwhmArcsec(
  header: Pick<HeaderFacts, 'starSize'> | undefined,
  pixelScaleArcsec: number | undefined,
): number | undefined {
  const pixels = fwhmPixels(header);
  return pixels === undefined || pixelScaleArcsec === undefined ? undefined : pixels * pixelScaleArcsec;
}

/** FWHM of a frame's stars, arcseconds: from the pixels if measured, else from the header. */
export function knownFwhmArcsec(
  stars: Pick<FrameStars, 'fwhm'> | undefined,
  header: Pick<HeaderFacts, 'starSize'> | undefined,
  train: Train | undefined,
): number | undefined {
  if (train === undefined) return undefined;
  const scale = sensorScaleArcsec(train);
  return stars?.fwhm == null || scale === undefined ? fwhmArcsec(header, train.pixelScaleArcsec) : stars.fwhm * scale;
}

/** FWHM below which the measured width contains less and less of the pixel's width, none below 1.5 px, px as stored. */
const PIXEL_IN = 1.8;
const PIXEL_OUT = 1.5;
/** FWHM squared of a pixel, 8 ln 2 / 12 px². */
const PIXEL_SQUARED = (2 * Math.LN2) / 3;

/**
 * The width of measured stars on the sensor, including the pixel, sensor pixels: from 1.5 to 1.8 px as stored the
 * measured one grows half as fast again, because the pixel's contribution sets in there.
 *
 * @param fwhm as measured in the pixels, sensor pixels
 */
export function recordedFwhm(fwhm: number, binning: HeaderFacts['binning']): number {
  const pixel = binning === undefined ? 1 : Math.sqrt(binning.x * binning.y);
  const stored = fwhm / pixel;
  if (stored >= PIXEL_IN) return fwhm;
  const bare = Math.sqrt(stored ** 2 + PIXEL_SQUARED);
  const rate = PIXEL_SQUARED / (PIXEL_IN - PIXEL_OUT);
  const between = (Math.sqrt(rate ** 2 + 4 * (stored ** 2 + rate * PIXEL_IN)) - rate) / 2;
  return pixel * (bare <= PIXEL_OUT ? bare : between);
}
