/**
 * Where the field and the site lie, from the many ways of writing coordinates.
 */
import { type AngleKind, parseAngle, type Place, precessToJ2000 } from './angles.js';
import { asNumber, asText, type CardReader } from './card-reader.js';
import { show } from './cards.js';
import type { Meaning } from './keywords.js';
import type { HeaderNote } from './notes.js';

const JULIAN_YEAR_MS = 365.25 * 86_400_000;
const J2000_MS = Date.UTC(2000, 0, 1, 12);
/** Under half a minute of arc: not worth moving a field for. */
const SAME_EQUINOX_YEARS = 0.5;

/**
 * The field's place at J2000: RA and DEC or their like, else the reference pixel of a celestial WCS.
 * Keywords count in pairs, so that no right ascension meets another keyword's declination.
 *
 * @param atMs when the frame was taken, UTC ms: the equinox of an apparent place
 */
export function fieldPlace(reader: CardReader, atMs: number | undefined): Place | undefined {
  const place = statedPlace(reader) ?? referencePixel(reader);
  if (place === undefined) return undefined;
  const equinox = equinoxYear(reader, atMs);
  return Math.abs(equinox - 2000) < SAME_EQUINOX_YEARS ? place : precessToJ2000(place, equinox);
}

/** Latitude and longitude of the site, degrees, east positive, longitude within ±180°. */
export function sitePlace(reader: CardReader): { readonly latitudeDeg: number; readonly longitudeDeg: number } | undefined {
  const latitude = angleOf(reader, 'siteLatitude', 'latitude', -90, 90);
  const longitude = angleOf(reader, 'siteLongitude', 'longitude', -180, 360);
  if (latitude === undefined || longitude === undefined) return undefined;
  if (latitude.degrees === 0 && longitude.degrees === 0) {
    reader.notes.push(unsetPlace(latitude.keyword, longitude.keyword, 'the site'));
    return undefined;
  }
  return { latitudeDeg: latitude.degrees, longitudeDeg: longitude.degrees > 180 ? longitude.degrees - 360 : longitude.degrees };
}

function statedPlace(reader: CardReader): Place | undefined {
  const declinations = reader.keywords('declination');
  for (const [index, raKeyword] of reader.keywords('rightAscension').entries()) {
    const decKeyword = declinations[index];
    if (decKeyword === undefined || asText(reader.value(raKeyword)) === '' || asText(reader.value(decKeyword)) === '') continue;
    const raDeg = angle(reader, raKeyword, 'right-ascension', 0, 360);
    const decDeg = angle(reader, decKeyword, 'declination', -90, 90);
    if (raDeg === undefined || decDeg === undefined) continue;
    if (raDeg !== 0 || decDeg !== 0) return { raDeg: raDeg % 360, decDeg };
    reader.notes.push(unsetPlace(raKeyword, decKeyword, 'the field'));
  }
  return undefined;
}

/** CRVALn where the axes are right ascension and declination (section 8.3), in either order. */
function referencePixel(reader: CardReader): Place | undefined {
  const types = [reader.text('axisType1') ?? '', reader.text('axisType2') ?? ''];
  const values = [asNumberOf(reader, 'axisValue1'), asNumberOf(reader, 'axisValue2')];
  const ra = values[types.findIndex((type) => type.startsWith('RA--'))];
  const dec = values[types.findIndex((type) => type.startsWith('DEC-'))];
  if (ra === undefined || dec === undefined || !(Math.abs(dec) <= 90) || !(Math.abs(ra) <= 360)) return undefined;
  return { raDeg: (ra + 360) % 360, decDeg: dec };
}

/** The equinox of the coordinates as a Julian year; without a word on it, ICRS (section 8.3). */
function equinoxYear(reader: CardReader, atMs: number | undefined): number {
  const frame = reader.text('celestialFrame')?.toUpperCase();
  if (frame === 'ICRS') return 2000;
  if (frame === 'GAPPT' && atMs !== undefined) return 2000 + (atMs - J2000_MS) / JULIAN_YEAR_MS;
  const year = asNumber(reader.text('equinox')?.replace(/^[JB]/i, '') ?? null);
  if (year >= 1800 && year <= 2200) return year;
  return frame === 'FK4' || frame === 'FK4-NO-E' ? 1950 : 2000;
}

function asNumberOf(reader: CardReader, meaning: Meaning): number {
  return asNumber(reader.text(meaning) ?? null);
}

function angleOf(reader: CardReader, meaning: Meaning, kind: AngleKind, from: number, to: number): { keyword: string; degrees: number } | undefined {
  for (const keyword of reader.keywords(meaning)) {
    if (asText(reader.value(keyword)) === '') continue;
    const degrees = angle(reader, keyword, kind, from, to);
    if (degrees !== undefined) return { keyword, degrees };
  }
  return undefined;
}

function angle(reader: CardReader, keyword: string, kind: AngleKind, from: number, to: number): number | undefined {
  const degrees = parseAngle(reader.value(keyword), kind);
  if (degrees >= from && degrees <= to) return degrees;
  reader.notes.push({
    code: 'unreadable-angle',
    card: keyword,
    what: `${keyword} is ${show(reader.value(keyword))}, which is no ${kind.replace('-', ' ')} from ${from}° to ${to}°; it was left out`,
    remedy: 'Check what the capture program writes there.',
  });
  return undefined;
}

function unsetPlace(first: string, second: string, whose: string): HeaderNote {
  return {
    code: 'unset-coordinates',
    card: first,
    what: `${first} and ${second} are both exactly 0, so ${whose} was taken as not known`,
    remedy: 'Set the coordinates in the capture program, or give them in the rig file.',
  };
}
