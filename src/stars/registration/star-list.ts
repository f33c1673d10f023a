/** Stars as flat arrays, brightest first, with the expected error of each position. */
import { numbersOf } from '../../model/collections.js';
import type { PixelPoint, Star } from '../../model/index.js';

/** Positions of stars, brightest first. */
export interface StarList {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Expected error of each coordinate, px. */
  readonly sigma: Float64Array;
}

/**
 * Relative star motion by the air during a sub, and the contribution of pixels and optics, px (common practice, no
 * source).
 */
const FLOOR_PX = 0.02;
/** A clipped core hides its centre (common practice, no source). */
const SATURATED_PX = 0.3;
/** Maximum number of stars: brighter ones come first. */
const MOST_STARS = 2000;

/**
 * The stars as a list. A position's error is FWHM / (2.355 · SNR), that of a Gaussian star with its own photon noise
 * (King 1983, PASP 95, 163; from memory), plus a floor. Stars without a finite position or flux are left out, and so
 * are those within `apartPx` of a `without` position.
 */
export function starListOf(stars: readonly Star[], without: readonly PixelPoint[] = [], apartPx = 1): StarList {
  const usable = stars.filter((s) => Number.isFinite(s.x) && Number.isFinite(s.y) && s.flux > 0);
  const kept = without.length === 0 ? usable : usable.filter((s) => !isAmong(s, without, apartPx));
  // Equal fluxes are ordered by position, so that the order of the input never matters.
  const sorted = [...kept].sort((a, b) => b.flux - a.flux || a.x - b.x || a.y - b.y).slice(0, MOST_STARS);
  return {
    count: sorted.length,
    x: numbersOf(sorted, (s) => s.x),
    y: numbersOf(sorted, (s) => s.y),
    sigma: numbersOf(sorted, expectedError),
  };
}

function expectedError(star: Star): number {
  const noise = star.fwhm > 0 && star.snr > 0 ? star.fwhm / (2.355 * star.snr) : 0.2;
  return Math.sqrt(noise ** 2 + FLOOR_PX ** 2 + (star.saturated ? SATURATED_PX ** 2 : 0));
}

/** Whether a star is at one of the positions, to within a pixel along each axis. */
export function isAmong(star: PixelPoint, places: readonly PixelPoint[], apartPx = 1): boolean {
  return places.some((p) => Math.abs(p.x - star.x) <= apartPx && Math.abs(p.y - star.y) <= apartPx);
}

/** The brightest of a list; the arrays are shared. */
export function brightest(list: StarList, most: number): StarList {
  if (list.count <= most) return list;
  return {
    count: most,
    x: list.x.subarray(0, most),
    y: list.y.subarray(0, most),
    sigma: list.sigma.subarray(0, most),
  };
}

/** The bounding rectangle of all stars, as an area in px²; at least 1. */
export function areaOf(list: StarList): number {
  let west = Infinity;
  let east = -Infinity;
  let south = Infinity;
  let north = -Infinity;
  for (let i = 0; i < list.count; i++) {
    west = Math.min(west, list.x[i]!);
    east = Math.max(east, list.x[i]!);
    south = Math.min(south, list.y[i]!);
    north = Math.max(north, list.y[i]!);
  }
  return Math.max(1, (east - west) * (north - south) || 1);
}
