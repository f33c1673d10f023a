/** Air mass: the length of the light's path through the air, relative to the zenith. */

const RAD = Math.PI / 180;

/**
 * Relative air mass at an apparent (refracted) altitude in degrees; 1 at the zenith, about 38 at the horizon.
 *
 * F. Kasten & A. T. Young 1989, Applied Optics 28, 4735. Fitted to the ISO standard atmosphere from 0° to 90°;
 * the fit falls to 0.9997 at the zenith, where 1 is returned.
 *
 * @returns `null` below the horizon
 */
export function airmass(apparentAltitudeDeg: number): number | null {
  if (!(apparentAltitudeDeg >= 0)) return null;
  const path = Math.sin(apparentAltitudeDeg * RAD) + 0.50572 * (apparentAltitudeDeg + 6.07995) ** -1.6364;
  return Math.max(1, 1 / path);
}

/**
 * Relative air mass by another fit, for comparison: K. A. Pickering 2002, DIO 12, 3, made for the lowest altitudes.
 * Within 0.3 % of {@link airmass} above 5°, 2.2 % above it at the horizon.
 *
 * @param apparentAltitudeDeg apparent (refracted) altitude, 0° to 90°
 * @returns `null` below the horizon
 */
export function airmassPickering(apparentAltitudeDeg: number): number | null {
  if (!(apparentAltitudeDeg >= 0)) return null;
  const lifted = apparentAltitudeDeg + 244 / (165 + 47 * apparentAltitudeDeg ** 1.1);
  return Math.max(1, 1 / Math.sin(lifted * RAD));
}
