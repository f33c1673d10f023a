/** Atmospheric refraction in visible light. Degrees; zero altitude is the mathematical horizon. */

const RAD = Math.PI / 180;

/** The air at the site, which refraction scales with. */
export interface Air {
  readonly pressureHpa: number;
  readonly temperatureC: number;
}

/** The air assumed by the formulas. */
export const REFERENCE_AIR: Air = { pressureHpa: 1010, temperatureC: 10 };

/** True altitude down to which Saemundsson's formula is used; it has a pole further down. */
const FORMULA_FLOOR_DEG = -1;
/** True altitude below which the apparent altitude is the true one. */
const TAPER_END_DEG = -5;

/**
 * The air at a height above sea level, by the pressure law of the standard atmosphere (ISO 2533:1975) and the formulas'
 * own 10 °C. The night's weather changes refraction by a few percent more.
 *
 * @param elevationM metres; the law ends at 11,000, and greater heights use its value there
 */
export function airAtElevation(elevationM: number): Air {
  return {
    pressureHpa: 1013.25 * (1 - 2.25577e-5 * Math.min(elevationM, 11_000)) ** 5.25588,
    temperatureC: REFERENCE_AIR.temperatureC,
  };
}

/**
 * Refraction from the apparent altitude, degrees: subtract it to get the true altitude.
 *
 * G. G. Bennett 1982, Journal of Navigation 35, 255, as given by Meeus, *Astronomical Algorithms*, (16.3). Good to
 * 0.07′ from the horizon to the zenith; never negative.
 *
 * @returns `null` below the horizon
 */
export function refractionFromApparent(apparentAltitudeDeg: number, air: Air = REFERENCE_AIR): number | null {
  if (!(apparentAltitudeDeg >= 0)) return null;
  const minutes = cotangent(apparentAltitudeDeg + 7.31 / (apparentAltitudeDeg + 4.4));
  return (Math.max(0, minutes) / 60) * density(air);
}

/**
 * Refraction from the true (airless) altitude, degrees: add it to get the apparent altitude.
 *
 * Th. Saemundsson 1986, Sky & Telescope 72, 70, as given by Meeus (16.4). Agrees with Bennett to 0.1′; never negative.
 *
 * @returns `null` when the light still arrives from below the horizon
 */
export function refractionFromTrue(trueAltitudeDeg: number, air: Air = REFERENCE_AIR): number | null {
  if (!(trueAltitudeDeg >= FORMULA_FLOOR_DEG)) return null;
  const refraction = saemundsson(trueAltitudeDeg, air);
  return trueAltitudeDeg + refraction >= 0 ? refraction : null;
}

/**
 * Apparent altitude of a true altitude, degrees, for every altitude, continuous and rising throughout.
 *
 * @param name the unified name of a target
 */
export function apparentAltitude(trueAltitudeDeg: number, air: Air = REFERENCE_AIR): number {
  if (trueAltitudeDeg >= FORMULA_FLOOR_DEG) return trueAltitudeDeg + saemundsson(trueAltitudeDeg, air);
  const share = Math.max(0, (trueAltitudeDeg - TAPER_END_DEG) / (FORMULA_FLOOR_DEG - TAPER_END_DEG));
  return trueAltitudeDeg + share * saemundsson(FORMULA_FLOOR_DEG, air);
}

function saemundsson(trueAltitudeDeg: number, air: Air): number {
  const minutes = 1.02 * cotangent(trueAltitudeDeg + 10.3 / (trueAltitudeDeg + 5.11));
  return (Math.max(0, minutes) / 60) * density(air);
}

/** Density of the air relative to the reference, Meeus p. 107. */
function density(air: Air): number {
  return (air.pressureHpa / 1010) * (283 / (273 + air.temperatureC));
}

function cotangent(deg: number): number {
  return 1 / Math.tan(deg * RAD);
}
