/** Electrons produced in a pixel by a sky of known brightness. */

const PLANCK = 6.62607015e-34;
/** Flux density of AB magnitude 0: 3631 Jy (J. B. Oke & J. E. Gunn 1983, ApJ 266, 713), in W m⁻² Hz⁻¹. */
const AB_ZERO = 3631e-26;

/** Optical properties of telescope, camera and filter. */
export interface LightPath {
  readonly apertureMm: number;
  /** Arcseconds per pixel as stored. */
  readonly pixelScaleArcsec: number;
  readonly filterWidthNm: number;
  readonly wavelengthNm: number;
  /** Electrons per photon that enters the telescope, 0…1. */
  readonly throughput: number;
}

/**
 * Photons per second, square metre and nanometre of a source of a magnitude: F/(hλ) of its flux density, with 3631 Jy
 * for magnitude 0. V magnitudes may be given: at 550 nm they differ from AB by a few hundredths.
 */
export function photonRate(magnitude: number, wavelengthNm: number): number {
  return (AB_ZERO / (PLANCK * wavelengthNm)) * 10 ** (-0.4 * magnitude);
}

/**
 * Sky in electrons per second and pixel. The sky's colour is assumed flat in AB magnitudes; a site's lamps and the
 * airglow lines change a narrow band by some tenths of a magnitude.
 */
export function skyElectrons(magArcsec2: number, path: LightPath): number {
  const squareMetres = (Math.PI / 4) * (path.apertureMm / 1000) ** 2;
  const photons =
    photonRate(magArcsec2, path.wavelengthNm) * squareMetres * path.filterWidthNm * path.pixelScaleArcsec ** 2;
  return photons * path.throughput;
}
