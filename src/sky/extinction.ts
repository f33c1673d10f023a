import { filterWavelengthNm } from '../model/index.js';

/** Atmospheric extinction of a clear night, by wavelength and height. Magnitudes per air mass. */

/** Mean extinction as published for Palomar, 1700 m: `[wavelength in nm, magnitudes per air mass]`. */
const PALOMAR: readonly (readonly [wavelengthNm: number, magnitudes: number])[] = [
  [440, 0.267],
  [500, 0.178],
  [540, 0.156],
  [650, 0.085],
  [682, 0.078],
  [810, 0.058],
];
const PALOMAR_M = 1700;
/**
 * Height over which extinction falls by 1/e, metres; approximate: the molecules' 8 km, shortened for low-lying dust.
 */
const SCALE_HEIGHT_M = 7000;

/**
 * Extinction in magnitudes per air mass on a clear night: linear between the entries of the Palomar table, scaled to
 * the site's height by exp((1700 m − height)/7000 m). Good to some 0.03 mag on an ordinary night; dust, haze and
 * humidity can double it.
 *
 * @param wavelengthNm nanometres, 440 to 810
 * @param elevationM metres above sea level
 * @returns `null` outside the table's wavelengths
 */
export function extinctionCoefficient(wavelengthNm: number, elevationM: number): number | null {
  const above = PALOMAR.findIndex(([nm]) => nm >= wavelengthNm);
  const upper = PALOMAR[above];
  if (!upper) return null;
  const lower = PALOMAR[above - 1] ?? upper;
  if (wavelengthNm < lower[0]) return null;
  const share = upper[0] === lower[0] ? 0 : (wavelengthNm - lower[0]) / (upper[0] - lower[0]);
  const atPalomar = lower[1] + share * (upper[1] - lower[1]);
  return atPalomar * Math.exp((PALOMAR_M - elevationM) / SCALE_HEIGHT_M);
}

/**
 * Extinction of a named filter at a height, magnitudes per air mass; `null` for an unknown name. See {@link
 * extinctionCoefficient}.
 */
export function filterExtinction(filter: string, elevationM: number): number | null {
  const wavelengthNm = filterWavelengthNm(filter);
  return wavelengthNm === null ? null : extinctionCoefficient(wavelengthNm, elevationM);
}
