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
/** Height over which extinction falls by 1/e, metres; approximate: the molecules' 8 km, shortened for low-lying dust. */
const SCALE_HEIGHT_M = 7000;

/**
 * Middle wavelength of the usual filters, nm. Lines: H I 6563 Å, [O III] 5007 Å, [S II] 6716 and 6731 Å (their mean).
 * The broad bands are common practice, no source.
 */
const FILTER_WAVELENGTH_NM: ReadonlyMap<string, number> = new Map([
  ['l', 550],
  ['lum', 550],
  ['luminance', 550],
  ['clear', 550],
  ['r', 635],
  ['red', 635],
  ['g', 530],
  ['green', 530],
  ['b', 450],
  ['blue', 450],
  ['ha', 656.3],
  ['halpha', 656.3],
  ['oiii', 500.7],
  ['o3', 500.7],
  ['sii', 672.4],
  ['s2', 672.4],
]);

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
 * Middle wavelength of a filter in nm, by its name or the first word of it: L, R, G, B, Ha, OIII, SII and their usual
 * spellings, in any case and punctuation.
 *
 * @returns `null` for another name
 */
export function filterWavelengthNm(filter: string): number | null {
  const [firstWord = ''] = filter.trim().split(/[\s_,/]+/);
  return FILTER_WAVELENGTH_NM.get(plainName(filter)) ?? FILTER_WAVELENGTH_NM.get(plainName(firstWord)) ?? null;
}

function plainName(name: string): string {
  return name
    .toLowerCase()
    .replace('α', 'a')
    .replace(/[^a-z0-9]/g, '');
}

/** Extinction of a named filter at a height, magnitudes per air mass; `null` for an unknown name. See {@link extinctionCoefficient}. */
export function filterExtinction(filter: string, elevationM: number): number | null {
  const wavelengthNm = filterWavelengthNm(filter);
  return wavelengthNm === null ? null : extinctionCoefficient(wavelengthNm, elevationM);
}
