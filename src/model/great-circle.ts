import { median } from './statistics.js';

const RAD = Math.PI / 180;
/** Mean radius of the Earth (IUGG), km. */
const EARTH_RADIUS_KM = 6371.0088;

/** Positions closer than this are one site: headers and rig files round coordinates differently. */
export const SAME_SITE_KM = 10;

/** Reduces an angle to [0, 360) degrees. */
export function normaliseDegrees(deg: number): number {
  return ((deg % 360) + 360) % 360;
}

/**
 * Angle between two directions given as longitude and latitude (RA/Dec, or azimuth/altitude), degrees in and out.
 *
 * Vincenty's form of the great-circle angle, which keeps full precision for tiny, right and nearly opposite angles (T.
 * Vincenty 1975, Survey Review 23, 88, on the sphere).
 */
export function separationDeg(longitudeA: number, latitudeA: number, longitudeB: number, latitudeB: number): number {
  const difference = (longitudeB - longitudeA) * RAD;
  const sinA = Math.sin(latitudeA * RAD);
  const cosA = Math.cos(latitudeA * RAD);
  const sinB = Math.sin(latitudeB * RAD);
  const cosB = Math.cos(latitudeB * RAD);
  const cosDifference = Math.cos(difference);
  const across = Math.hypot(cosB * Math.sin(difference), cosA * sinB - sinA * cosB * cosDifference);
  return Math.atan2(across, sinA * sinB + cosA * cosB * cosDifference) / RAD;
}

/** A direction modulo half a turn, such as a camera's across a meridian flip: above −90° and up to 90°. */
export function halfTurnDeg(deg: number): number {
  const turned = normaliseDegrees(2 * deg);
  return (turned > 180 ? turned - 360 : turned) / 2;
}

/**
 * Median of directions, degrees in [0, 360): computed relative to the first one, so that 359° and 1° have 0° between
 * them. NaN for no directions, as for no values.
 */
export function circularMedianDeg(degrees: readonly number[]): number {
  const [origin] = degrees;
  if (origin === undefined) return NaN;
  return normaliseDegrees(origin + median(degrees.map((d) => normaliseDegrees(d - origin + 180) - 180)));
}

/** A location on the Earth, degrees, east positive. */
interface EarthPlace {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** Whether two locations are one site: no farther apart than {@link SAME_SITE_KM} on a spherical Earth. */
export function isSameSite(a: EarthPlace, b: EarthPlace): boolean {
  return (
    separationDeg(a.longitudeDeg, a.latitudeDeg, b.longitudeDeg, b.latitudeDeg) * RAD * EARTH_RADIUS_KM <= SAME_SITE_KM
  );
}

/**
 * Assigns the same key to locations of one site, for grouping; `null` if unknown. Keys are only meaningful among the
 * locations given together.
 */
export function siteKeys(places: readonly (EarthPlace | null)[]): (string | null)[] {
  const found: EarthPlace[] = [];
  return places.map((place) => {
    if (place === null) return null;
    const known = found.findIndex((other) => isSameSite(other, place));
    return `site ${known >= 0 ? known : found.push(place) - 1}`;
  });
}
