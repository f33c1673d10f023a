/**
 * Where the field and the site lie, from the many ways of writing coordinates: decimal or sexagesimal, of this
 * equinox or that, for the field or for the reference pixel.
 */
import { sexagesimalDeg, sexagesimalHoursDeg } from '../../model/angle.js';
import type { FieldPlace, HeaderSite } from '../../model/frame.js';
import { asNumber, asText, type CardReader } from './card-reader.js';
import type { CardValue } from './card-values.js';
import type { Keyword, Meaning } from './keywords.js';
import { type HeaderNote, show } from './notes.js';
import { byRemark } from './units.js';

const JULIAN_YEAR_MS = 365.25 * 86_400_000;
const J2000_MS = Date.UTC(2000, 0, 1, 12);
/** Under half a minute of arc: not worth moving a field for. */
const SAME_EQUINOX_YEARS = 0.5;

/**
 * The field's position at J2000: RA and DEC or similar, else the reference pixel of a celestial WCS. Keywords count in
 * pairs, so that no right ascension is combined with another keyword's declination.
 *
 * @param atMs when the frame was taken, UTC ms: the equinox of an apparent place
 */
export function fieldPlace(reader: CardReader, atMs: number | undefined): FieldPlace | undefined {
  const place = statedPlace(reader) ?? referencePixel(reader);
  if (place === undefined) return undefined;
  const equinox = equinoxYear(reader, atMs);
  return Math.abs(equinox - 2000) < SAME_EQUINOX_YEARS ? place : precessToJ2000(place, equinox);
}

/** Latitude and longitude of the site, degrees, east positive, longitude within ±180°. */
export function sitePlace(reader: CardReader): Omit<HeaderSite, 'elevationM'> | undefined {
  const latitude = angleOf(reader, 'siteLatitude', 'latitude', -90, 90);
  const longitude = angleOf(reader, 'siteLongitude', 'longitude', -180, 360);
  if (latitude === undefined || longitude === undefined) return undefined;
  if (latitude.degrees === 0 && longitude.degrees === 0) {
    reader.notes.push(unsetPlace(latitude.keyword, longitude.keyword, 'the site'));
    return undefined;
  }
  return {
    latitudeDeg: latitude.degrees,
    longitudeDeg: longitude.degrees > 180 ? longitude.degrees - 360 : longitude.degrees,
  };
}

function statedPlace(reader: CardReader): FieldPlace | undefined {
  for (const [raKeyword, decKeyword] of reader.places) {
    if (!reader.has(raKeyword) || !reader.has(decKeyword)) continue;
    const written = angle(reader, raKeyword, 'right-ascension', 0, 360);
    const raDeg = written === undefined ? undefined : inDegrees(reader, raKeyword, written);
    const decDeg = angle(reader, decKeyword, 'declination', -90, 90);
    if (raDeg === undefined || decDeg === undefined) continue;
    if (raDeg !== 0 || decDeg !== 0) return { raDeg: raDeg % 360, decDeg };
    reader.notes.push(unsetPlace(raKeyword.name, decKeyword.name, 'the field'));
  }
  return undefined;
}

/** A numeric right ascension, in hours if its comment says so (section 4.3.2). */
function inDegrees(reader: CardReader, keyword: Keyword, written: number): number {
  const remark = reader.remark(keyword);
  if (remark === undefined || written >= 24 || asNumber(reader.value(keyword)) === undefined) return written;
  return byRemark(written, remark, 'rightAscension');
}

/** CRVALn where the axes are right ascension and declination (section 8.3), in either order. */
function referencePixel(reader: CardReader): FieldPlace | undefined {
  const types = [reader.text('axisType1'), reader.text('axisType2')];
  const values = [numberIn(reader.text('axisValue1')), numberIn(reader.text('axisValue2'))];
  const ra = values[types.findIndex((type) => type?.startsWith('RA--'))];
  const dec = values[types.findIndex((type) => type?.startsWith('DEC-'))];
  if (ra === undefined || dec === undefined || !(Math.abs(dec) <= 90) || !(Math.abs(ra) <= 360)) return undefined;
  return { raDeg: (ra + 360) % 360, decDeg: dec };
}

/** The equinox of the coordinates as a Julian year; ICRS if not stated (section 8.3). */
function equinoxYear(reader: CardReader, atMs: number | undefined): number {
  const frame = reader.text('celestialFrame')?.toUpperCase();
  if (frame === 'ICRS') return 2000;
  if (frame === 'GAPPT' && atMs !== undefined) return 2000 + (atMs - J2000_MS) / JULIAN_YEAR_MS;
  const year = numberIn(reader.text('equinox')?.replace(/^[JB]/i, ''));
  if (year !== undefined && year >= 1800 && year <= 2200) return year;
  return frame === 'FK4' || frame === 'FK4-NO-E' ? 1950 : 2000;
}

function numberIn(text: string | undefined): number | undefined {
  return text === undefined ? undefined : asNumber(text);
}

function angleOf(
  reader: CardReader,
  meaning: Meaning,
  kind: AngleKind,
  from: number,
  to: number,
): { keyword: string; degrees: number } | undefined {
  for (const keyword of reader.keywords(meaning)) {
    if (!reader.has(keyword)) continue;
    const degrees = angle(reader, keyword, kind, from, to);
    if (degrees !== undefined) return { keyword: keyword.name, degrees };
  }
  return undefined;
}

function angle(reader: CardReader, keyword: Keyword, kind: AngleKind, from: number, to: number): number | undefined {
  const degrees = parseAngle(reader.value(keyword), kind);
  if (degrees !== undefined && degrees >= from && degrees <= to) return degrees;
  reader.notes.push({
    code: 'unreadable-angle',
    card: keyword.name,
    what:
      `${keyword.name} is ${show(reader.value(keyword))}, which is not a ${kind.replace('-', ' ')} from ${from}° ` +
      `to ${to}°; it was left out`,
    remedy: 'Check what the capture program writes there.',
  });
  return undefined;
}

function unsetPlace(first: string, second: string, whose: string): HeaderNote {
  return {
    code: 'unset-coordinates',
    card: first,
    what: `${first} and ${second} are both exactly 0, so ${whose} was taken to be unknown`,
    remedy: 'Set the coordinates in the capture program, or give them in the rig file.',
  };
}

/** What an angle measures; it determines the unit of sexagesimal text and the allowed letters around it. */
type AngleKind = 'right-ascension' | 'declination' | 'latitude' | 'longitude';

const HEMISPHERE = /^([NSEW])?(.*?)([NSEW])?$/;

/**
 * An angle in degrees.
 *
 * A number, or text with one number, is in degrees, for right ascension too: that is the standard's unit for
 * RA and DEC. Text of two or three groups is sexagesimal: hours for right ascension (unless it carries `d` or `°`),
 * degrees for the others. Latitude and longitude may carry N, S, E or W; south and west are negative.
 *
 * @returns `undefined` when it is no angle
 */
function parseAngle(value: CardValue, kind: AngleKind): number | undefined {
  const decimal = asNumber(value);
  if (decimal !== undefined || typeof value !== 'string') return decimal;
  const text = asText(value);
  if (kind === 'right-ascension') return sexagesimalHoursDeg(text);
  return kind === 'declination' ? sexagesimalDeg(text) : hemisphereDeg(text, kind);
}

/** Degrees that may carry a letter for the hemisphere, before or after. */
function hemisphereDeg(text: string, kind: 'latitude' | 'longitude'): number | undefined {
  const [, before, angle = text, after] = HEMISPHERE.exec(text) ?? [];
  const letter = before ?? after;
  if (letter === undefined) return sexagesimalDeg(text);
  if ('NS'.includes(letter) !== (kind === 'latitude')) return undefined;
  const degrees = asNumber(angle.trim()) ?? sexagesimalDeg(angle);
  return degrees !== undefined && (letter === 'S' || letter === 'W') ? -degrees : degrees;
}

const RADIANS = Math.PI / 180;
const ARCSEC = RADIANS / 3600;

/**
 * Precesses a mean place of some equinox to J2000.0, by the angles ζ, z and θ of the IAU 1976 precession. Good to a
 * second of arc within a century; proper motion and nutation are left aside.
 *
 * Source: Meeus, Astronomical Algorithms, 2nd ed., formulas 21.3 and 21.4, turned about to go to J2000.
 *
 * @param place degrees, at the given equinox
 * @param equinox Julian year, such as 2026.8
 */
export function precessToJ2000(place: FieldPlace, equinox: number): FieldPlace {
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
