/**
 * Brightness of the twilight sky at the zenith, V band, by measurements at a dark mountain site: F. Patat, O. S.
 * Ugolnikov & O. V. Postylyakov 2006, A&A 455, 385 (second-degree fits over Sun zenith distances 95° to 105°; the
 * coefficients here are from memory). Twilight near the Sun's azimuth and near the horizon is brighter than at the
 * zenith; a low site is about 30 % brighter than theirs.
 */
import { nanoLamberts } from './moonlight.js';

/** V magnitudes per square arcsecond: A0 + A1·(ζ − 95°) + A2·(ζ − 95°)². */
const A0 = 11.84;
const A1 = 1.518;
const A2 = -0.057;
/** Their dark sky in V, which the fits contain. From memory. */
const DARK_MAG_ARCSEC2 = 21.6;
/** Sun zenith distances beyond which there is no twilight: the fit has reached the dark sky. */
const NIGHT_ZENITH_DISTANCE_DEG = 106;

/**
 * Twilight only, nanolamberts, with the dark sky subtracted; 0 in full darkness.
 *
 * For a Sun above the fit's range (−5°) the slope there is kept.
 *
 * @param sunAltitudeDeg of the Sun's centre, without refraction
 */
export function twilightNanoLamberts(sunAltitudeDeg: number): number {
  const beyond = 90 - sunAltitudeDeg - 95;
  if (beyond >= NIGHT_ZENITH_DISTANCE_DEG - 95) return 0;
  const magnitude = A0 + A1 * beyond + (beyond > 0 ? A2 * beyond ** 2 : 0);
  return Math.max(0, nanoLamberts(magnitude) - nanoLamberts(DARK_MAG_ARCSEC2));
}
