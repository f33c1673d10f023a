import {
  AstroTime,
  Body,
  C_AUDAY,
  KM_PER_AU,
  ObserverVector,
  PairLongitude,
  RotateVector,
  Rotation_EQD_HOR,
} from 'astronomy-engine';
import type { Observer, Vector } from 'astronomy-engine';
import type { Target } from '../model/index.js';
import { Ephemeris, type SolarSystem, type Triple } from './ephemeris.js';
import { type Axes, inAxes, SiteAxes } from './site-axes.js';

const RAD = Math.PI / 180;
const DEG = 180 / Math.PI;
/** Mean radius of the Moon (IAU). */
const MOON_RADIUS_KM = 1737.4;

/** A direction at the site. Degrees, without refraction; azimuth from north through east. */
export interface Direction {
  readonly altitudeDeg: number;
  readonly azimuthDeg: number;
}

/** The Moon as seen from the site. */
export interface MoonPlace extends Direction {
  readonly distanceKm: number;
  /** Apparent radius of the disc, degrees. */
  readonly semidiameterDeg: number;
}

/** The Moon's phase as almanacs print it: from the Earth's centre; at the site it differs by up to 1°. */
export interface MoonPhase {
  /** Angle Sun–Moon–Earth, degrees: 0 at full Moon, 180 at new. */
  readonly angleDeg: number;
  /** Illuminated fraction of the disc, 0…1. */
  readonly illumination: number;
}

/** A fixed position in the sky, J2000 / ICRS degrees. */
type Place = Pick<Target, 'raDeg' | 'decDeg'>;

/** Towards a fixed place: a vector of length 1, J2000. */
interface Star extends Place {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** A location on the Earth, prepared for many instants. */
export class Station {
  readonly ephemeris = new Ephemeris();
  readonly axes: SiteAxes;
  /**
   * From the Earth's centre to the site in the site's own axes (north, west, zenith), AU: turns with it, so never
   * changes.
   */
  readonly offset: Vector;
  /** A night requests one target after another at each instant, or many instants for one. */
  #latest: Star | undefined;

  constructor(observer: Observer) {
    const time = new AstroTime(0);
    this.axes = new SiteAxes(observer);
    this.offset = RotateVector(Rotation_EQD_HOR(time, observer), ObserverVector(time, observer, true));
  }

  /** @throws RangeError when a coordinate is not a number */
  star({ raDeg, decDeg }: Place): Star {
    const known = this.#latest;
    if (known?.raDeg === raDeg && known.decDeg === decDeg) return known;
    if (!Number.isFinite(raDeg) || !Number.isFinite(decDeg))
      throw new RangeError(`no such place in the sky: right ascension ${raDeg}°, declination ${decDeg}°`);
    const cosDec = Math.cos(decDeg * RAD);
    const z = Math.sin(decDeg * RAD);
    this.#latest = { raDeg, decDeg, x: cosDec * Math.cos(raDeg * RAD), y: cosDec * Math.sin(raDeg * RAD), z };
    return this.#latest;
  }
}

/**
 * The sky over a station at one instant.
 *
 * Directions are apparent places but for refraction: light time, aberration, precession and nutation are in, and the
 * Sun and Moon are seen from the site, not from the Earth's centre. UT1 is taken as UTC (0.9 s at most). Plain numbers,
 * where the library's vectors and matrices would be thirty objects a moment; the figures are the same to the last
 * digit.
 */
export class SkyMoment {
  readonly atMs: number;
  readonly #station: Station;
  readonly #sky: SolarSystem;
  readonly #axes: Axes;
  /** Both are asked for more than once. */
  #moonSeen: MoonPlace | undefined;
  #sunFromEarth: Triple | undefined;

  /**
   * @param atMs UTC milliseconds since the epoch
   * @throws RangeError when the instant is not a number a date can have
   */
  constructor(station: Station, atMs: number) {
    this.atMs = atMs;
    const time = timeOf(atMs);
    this.#station = station;
    this.#sky = station.ephemeris.at(atMs);
    this.#axes = station.axes.at(this.#sky, time);
  }

  /** The Sun's centre. */
  get sun(): Direction {
    return directionOf(this.#seenFromSite(this.#sun()));
  }

  /** The Moon's centre. */
  get moon(): MoonPlace {
    this.#moonSeen ??= moonPlace(this.#seenFromSite([this.#sky[0], this.#sky[1], this.#sky[2]]));
    return this.#moonSeen;
  }

  /** The Moon's phase. */
  get moonPhase(): MoonPhase {
    const sky = this.#sky;
    const sun = this.#sun();
    const moon: Triple = [sky[0], sky[1], sky[2]];
    const angleDeg = angleBetween(moon, [sky[0] - sun[0], sky[1] - sun[1], sky[2] - sun[2]]);
    return { angleDeg, illumination: (1 + Math.cos(angleDeg * RAD)) / 2 };
  }

  /** Whether the Moon is on its way from new to full. */
  get moonWaxing(): boolean {
    return PairLongitude(Body.Moon, Body.Sun, timeOf(this.atMs)) < 180;
  }

  /** Direction of a fixed target; J2000 / ICRS degrees in. @throws RangeError when a coordinate is not a number */
  direction(target: Place): Direction {
    const star = this.#station.star(target);
    const sky = this.#sky;
    // Annual aberration to first order in v/c; the Earth's motion around the Sun approximates that around the
    // barycentre (0.01″).
    const seen: Triple = [star.x + sky[6] / C_AUDAY, star.y + sky[7] / C_AUDAY, star.z + sky[8] / C_AUDAY];
    return directionOf(inAxes(this.#axes, seen));
  }

  /**
   * The Sun as seen from the Earth's position one light time ago, which includes aberration and light time. J2000, AU.
   */
  #sun(): Triple {
    if (this.#sunFromEarth !== undefined) return this.#sunFromEarth;
    const sky = this.#sky;
    const lightDays = Math.hypot(sky[3], sky[4], sky[5]) / C_AUDAY;
    this.#sunFromEarth = [sky[6] * lightDays - sky[3], sky[7] * lightDays - sky[4], sky[8] * lightDays - sky[5]];
    return this.#sunFromEarth;
  }

  /** From the Earth's centre to the site: this adds parallax. */
  #seenFromSite(geocentric: Triple): Triple {
    const seen = inAxes(this.#axes, geocentric);
    const { x, y, z } = this.#station.offset;
    return [seen[0] - x, seen[1] - y, seen[2] - z];
  }
}

/** @throws RangeError when the instant is not a number a date can have */
function timeOf(atMs: number): AstroTime {
  const date = new Date(atMs);
  if (Number.isNaN(date.getTime())) throw new RangeError(`no such instant: ${atMs} ms`);
  return new AstroTime(date);
}

function moonPlace(seen: Triple): MoonPlace {
  const { altitudeDeg, azimuthDeg } = directionOf(seen);
  const distanceKm = Math.hypot(seen[0], seen[1], seen[2]) * KM_PER_AU;
  return { altitudeDeg, azimuthDeg, distanceKm, semidiameterDeg: Math.asin(MOON_RADIUS_KM / distanceKm) / RAD };
}

/** @param seen north, west and zenith of the site */
function directionOf(seen: Triple): Direction {
  const north = seen[0];
  const west = seen[1];
  // Counted through east, from 0 to below 360.
  const throughWest = DEG * Math.atan2(west, north);
  const throughEast = 360 - (throughWest < 0 ? throughWest + 360 : throughWest);
  const azimuthDeg = throughEast >= 360 ? throughEast - 360 : throughEast;
  return { altitudeDeg: DEG * Math.atan2(seen[2], Math.sqrt(north * north + west * west)), azimuthDeg };
}

/** Degrees. */
function angleBetween(a: Triple, b: Triple): number {
  const lengths = (a[0] * a[0] + a[1] * a[1] + a[2] * a[2]) * (b[0] * b[0] + b[1] * b[1] + b[2] * b[2]);
  const cosine = (a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) / Math.sqrt(lengths);
  // Rounding can exceed the domain of the arc cosine.
  return DEG * Math.acos(Math.max(-1, Math.min(1, cosine)));
}
