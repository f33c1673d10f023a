/**
 * Brightness of moonlit sky after K. Krisciunas & B. E. Schaefer 1991, PASP 103, 1033; equation numbers are theirs.
 * Surface brightness in nanolamberts (nL) or V magnitudes per square arcsecond.
 */

import { airmass } from './airmass.js';

const RAD = Math.PI / 180;

/** Separation at which the published scattering function changes its form; the dust's share steps by a fifth there. */
const NEAR_MOON_DEG = 10;
/** Radius of the disc: nearer than that there is no sky, and the function would grow without end. */
const MOON_DISC_DEG = 0.25;

/** What the brightening of a position in the sky depends on. */
export interface MoonlitPlace {
  /** Angle Sun–Moon–Earth, degrees: 0 at full Moon; its sign plays no part. */
  readonly phaseAngleDeg: number;
  /** Angle between Moon and target, degrees. */
  readonly separationDeg: number;
  readonly moonAltitudeDeg: number;
  readonly targetAltitudeDeg: number;
  /** Extinction, magnitudes per air mass. */
  readonly k: number;
  /** Moonless sky at the zenith, magnitudes per square arcsecond. */
  readonly darkSkyMagArcsec2: number;
}

/** How much the Moon brightens the sky at a place. */
export interface MoonBrightening {
  /** Moonlit less dark sky, magnitudes per square arcsecond: negative, for brighter; 0 without the Moon. */
  readonly deltaMag: number;
  /** The scattered moonlight alone. */
  readonly moonNanoLamberts: number;
  /** The dark sky at that altitude. */
  readonly darkNanoLamberts: number;
}

/**
 * Predicted brightening of a clear sky by the Moon at a target's position.
 *
 * Made for V, where it meets the authors' data to 8–23 %; other bands use that band's `k` (and dark sky) and are good
 * to ±0.3 mag. It underestimates the light within 7° of full (no opposition surge), and has a published step at a
 * separation of 10°. The published air mass is capped at 5, so that a Moon on the horizon would shine at half its light
 * and a rising one brighten the sky abruptly by more than a magnitude: the Moon's own path uses Kasten & Young's (1989)
 * instead, to 0.01 mag the same above 30°. A measured sky level is better than any of this. A Moon on or below the
 * horizon contributes nothing.
 *
 * @param form the Moon's path through the air: `path` as above, `published` as in (3), for checks
 * @returns `null` when the target is not above the horizon, where the model is undefined
 */
export function moonBrightening(place: MoonlitPlace, form: 'path' | 'published' = 'path'): MoonBrightening | null {
  if (!(place.targetAltitudeDeg > 0)) return null;
  const targetAirmass = skyAirmass(90 - place.targetAltitudeDeg);
  const darkNanoLamberts = darkSky(nanoLamberts(place.darkSkyMagArcsec2), place.k, targetAirmass);
  const moonNanoLamberts = place.moonAltitudeDeg > 0 ? moonlight(place, targetAirmass, form) : 0;
  const deltaMag =
    moonNanoLamberts > 0 ? -2.5 * Math.log10((moonNanoLamberts + darkNanoLamberts) / darkNanoLamberts) : 0; // (22)
  return { deltaMag, moonNanoLamberts, darkNanoLamberts };
}

/** (1): surface brightness in nanolamberts of V magnitudes per square arcsecond. */
export function nanoLamberts(magArcsec2: number): number {
  return 34.08 * Math.exp(20.7233 - 0.92104 * magArcsec2);
}

/** (1) inverted: V magnitudes per square arcsecond from nanolamberts. */
export function magArcsec2(brightnessNanoLamberts: number): number {
  return (20.7233 - Math.log(brightnessNanoLamberts / 34.08)) / 0.92104;
}

/** (15): moonlight scattered towards the observer, nL. */
function moonlight(place: MoonlitPlace, targetAirmass: number, form: 'path' | 'published'): number {
  const published = skyAirmass(90 - place.moonAltitudeDeg);
  const moonAirmass = form === 'published' ? published : (airmass(place.moonAltitudeDeg) ?? published);
  const throughAir = 10 ** (-0.4 * place.k * moonAirmass);
  const scattered = 1 - 10 ** (-0.4 * place.k * targetAirmass);
  return scattering(place.separationDeg) * moonIlluminance(place.phaseAngleDeg) * throughAir * scattered;
}

/** (2): the dark sky away from the zenith: more airglow along the way, less of it through the air. */
function darkSky(zenithNanoLamberts: number, k: number, airmass: number): number {
  return zenithNanoLamberts * 10 ** (-0.4 * k * (airmass - 1)) * airmass;
}

/** (3): the model's own air mass, 1 at the zenith and 5 on the horizon. */
function skyAirmass(zenithDistanceDeg: number): number {
  return (1 - 0.96 * Math.sin(zenithDistanceDeg * RAD) ** 2) ** -0.5;
}

/** (8, 9, 20): the Moon's illuminance above the air, foot-candles. */
function moonIlluminance(phaseAngleDeg: number): number {
  const magnitude = -12.73 + 0.026 * Math.abs(phaseAngleDeg) + 4e-9 * phaseAngleDeg ** 4;
  return 10 ** (-0.4 * (magnitude + 16.57));
}

/** (21): scattering by molecules (17) and by dust, (18) or near the Moon (19). */
function scattering(separationDeg: number): number {
  const fromDisc = Math.max(separationDeg, MOON_DISC_DEG);
  const molecules = 10 ** 5.36 * (1.06 + Math.cos(fromDisc * RAD) ** 2);
  const dust = fromDisc >= NEAR_MOON_DEG ? 10 ** (6.15 - fromDisc / 40) : 6.2e7 / fromDisc ** 2;
  return molecules + dust;
}
