const RAD = Math.PI / 180;
/** Mean radius of the Earth (IUGG), km. */
const EARTH_RADIUS_KM = 6371.0088;

/** Places nearer than this are one site: headers and rig files round coordinates differently. */
export const SAME_SITE_KM = 10;

/** Angle between two directions on a sphere, degrees, from longitudes and latitudes in degrees (haversine formula). */
export function greatCircleDeg(lonA: number, latA: number, lonB: number, latB: number): number {
  const h = Math.sin(((latB - latA) * RAD) / 2) ** 2 + Math.cos(latA * RAD) * Math.cos(latB * RAD) * Math.sin(((lonB - lonA) * RAD) / 2) ** 2;
  return (2 * Math.asin(Math.min(1, Math.sqrt(h)))) / RAD;
}

/** A place on the Earth, degrees, east positive. */
interface EarthPlace {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** Whether two places are one site: no farther apart than {@link SAME_SITE_KM} over a spherical Earth. */
export function isSameSite(a: EarthPlace, b: EarthPlace): boolean {
  return greatCircleDeg(a.longitudeDeg, a.latitudeDeg, b.longitudeDeg, b.latitudeDeg) * RAD * EARTH_RADIUS_KM <= SAME_SITE_KM;
}

/**
 * Gives places that are one site the same key, so that things can be grouped by it; `null` where no place is known.
 * Keys mean something only among the places given together.
 */
export function siteKeys(places: readonly (EarthPlace | null)[]): (string | null)[] {
  const found: EarthPlace[] = [];
  return places.map((place) => {
    if (place === null) return null;
    const known = found.findIndex((other) => isSameSite(other, place));
    return `site ${known >= 0 ? known : found.push(place) - 1}`;
  });
}
