/**
 * Where a target stands, for tests alone: mean sidereal time and the altitude without refraction (J. Meeus 1998,
 * Astronomical Algorithms, formulas 12.4 and 13.6; from memory). Good to a quarter of a degree, precession left out.
 */
import type { Scenario } from '../../support/generator/scenario.js';

const RAD = Math.PI / 180;
const J2000_MS = Date.UTC(2000, 0, 1, 12);

/** Altitude of a scenario's target at an instant, degrees. */
export function altitudeDeg({ site, targets }: Scenario, target: string, atMs: number): number {
  const place = targets.find(({ name }) => name === target);
  if (!place) throw new Error(`there is no target ${target}`);
  const days = (atMs - J2000_MS) / 86_400_000;
  const siderealDeg = 280.46062 + 360.985647366 * days + site.longitude;
  const hourAngle = (siderealDeg - place.raDeg) * RAD;
  const [latitude, declination] = [site.latitude * RAD, place.decDeg * RAD];
  return (
    Math.asin(
      Math.sin(latitude) * Math.sin(declination) + Math.cos(latitude) * Math.cos(declination) * Math.cos(hourAngle),
    ) / RAD
  );
}
