/**
 * Angles and places on the sky: decimal or sexagesimal, and from other equinoxes to J2000.
 */
import { asNumber } from './card-reader.js';
import type { CardValue } from './card-values.js';

/** What an angle is measured for; it decides the unit of sexagesimal text and which letters may stand around it. */
export type AngleKind = 'right-ascension' | 'declination' | 'latitude' | 'longitude';

const GROUPS = /\d+(?:[.,]\d*)?/g;
/** What may stand between and around the numbers of a sexagesimal angle. */
const SEPARATORS = /^[\s:hmsd°'"′″]*$/i;
const HEMISPHERE = /^([NSEW])?(.*?)([NSEW])?$/;

/**
 * An angle in degrees.
 *
 * A number, or text with one number, is in degrees, for right ascension too: that is the standard's unit for
 * RA and DEC. Text of two or three groups is sexagesimal: hours for right ascension (unless it carries `d` or `°`),
 * degrees for the others. Latitude and longitude may carry N, S, E or W; south and west are negative.
 *
 * @returns NaN when it is no angle
 */
export function parseAngle(value: CardValue, kind: AngleKind): number {
  const decimal = asNumber(value);
  if (!Number.isNaN(decimal) || typeof value !== 'string') return decimal;

  let text = value.trim();
  let sign = 1;
  if (kind === 'latitude' || kind === 'longitude') {
    const [, before, rest, after] = HEMISPHERE.exec(text) ?? [];
    const letter = before ?? after;
    if (letter !== undefined) {
      if ('NS'.includes(letter) !== (kind === 'latitude')) return Number.NaN;
      if (letter === 'S' || letter === 'W') sign = -1;
      text = (rest ?? '').trim();
    }
  }
  if (/^[-−]/.test(text)) sign = -sign;
  text = text.replace(/^[-−+]\s*/, '');

  const groups = text.match(GROUPS)?.map((group) => Number(group.replace(',', '.'))) ?? [];
  const [whole = Number.NaN, minutes = 0, seconds = 0] = groups;
  if (groups.length > 3 || minutes > 60 || seconds > 60 || !SEPARATORS.test(text.replace(GROUPS, ''))) return Number.NaN;
  const inHours = kind === 'right-ascension' && !/[d°]/i.test(text) && (groups.length > 1 || /h/i.test(text));
  return sign * (whole + minutes / 60 + seconds / 3600) * (inHours ? 15 : 1);
}

const RADIANS = Math.PI / 180;
const ARCSEC = RADIANS / 3600;

/** A place on the sky, degrees. */
export interface Place {
  readonly raDeg: number;
  readonly decDeg: number;
}

/**
 * Precesses a mean place of some equinox to J2000.0, by the angles ζ, z and θ of the IAU 1976 precession.
 * Good to a second of arc within a century; proper motion and nutation are left aside.
 *
 * Source: Meeus, Astronomical Algorithms, 2nd ed., formulas 21.3 and 21.4, turned about to go to J2000.
 *
 * @param place degrees, at the given equinox
 * @param equinox Julian year, 2026.8 say
 */
export function precessToJ2000(place: Place, equinox: number): Place {
  const t = (equinox - 2000) / 100;
  const zeta = (2306.2181 * t + 0.30188 * t ** 2 + 0.017998 * t ** 3) * ARCSEC;
  const z = (2306.2181 * t + 1.09468 * t ** 2 + 0.018203 * t ** 3) * ARCSEC;
  const theta = (2004.3109 * t - 0.42665 * t ** 2 - 0.041833 * t ** 3) * ARCSEC;

  // The inverse rotation: z and ζ change places, and all three their signs.
  const alpha = place.raDeg * RADIANS - z;
  const delta = place.decDeg * RADIANS;
  const a = Math.cos(delta) * Math.sin(alpha);
  const b = Math.cos(theta) * Math.cos(delta) * Math.cos(alpha) + Math.sin(theta) * Math.sin(delta);
  const c = -Math.sin(theta) * Math.cos(delta) * Math.cos(alpha) + Math.cos(theta) * Math.sin(delta);
  const raDeg = (Math.atan2(a, b) - zeta) / RADIANS;
  return { raDeg: ((raDeg % 360) + 360) % 360, decDeg: Math.atan2(c, Math.hypot(a, b)) / RADIANS };
}
