import {
  AngleBetween,
  AstroTime,
  Body,
  C_AUDAY,
  CombineRotation,
  HorizonFromVector,
  KM_PER_AU,
  ObserverVector,
  PairLongitude,
  RotateVector,
  Rotation_EQD_HOR,
  Spherical,
  Vector,
  VectorFromSphere,
} from 'astronomy-engine';
import type { Observer, RotationMatrix } from 'astronomy-engine';
import type { Target } from '../model/index.js';
import { Ephemeris } from './ephemeris.js';
import type { SolarSystem } from './ephemeris.js';

const RAD = Math.PI / 180;
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

/** A place on the Earth, ready for many instants. */
export class Station {
  readonly observer: Observer;
  readonly ephemeris = new Ephemeris();
  /**
   * From the Earth's centre to the site in the site's own axes (north, west, zenith), AU: turns with it, so never
   * changes.
   */
  readonly offset: Vector;

  constructor(observer: Observer) {
    const time = new AstroTime(0);
    this.observer = observer;
    this.offset = RotateVector(Rotation_EQD_HOR(time, observer), ObserverVector(time, observer, true));
  }
}

/**
 * The sky over a station at one instant.
 *
 * Directions are apparent places but for refraction: light time, aberration, precession and nutation are in, and the
 * Sun and Moon are seen from the site, not from the Earth's centre. UT1 is taken as UTC (0.9 s at most).
 */
export class SkyMoment {
  readonly atMs: number;
  readonly #time: AstroTime;
  readonly #offset: Vector;
  readonly #solarSystem: SolarSystem;
  /** J2000 to the true equator and equinox of date, and on to north, west and zenith of the site. */
  readonly #toSiteAxes: RotationMatrix;
  /** Both are asked for more than once. */
  #moonSeen: MoonPlace | undefined;
  #sunFromEarth: Vector | undefined;

  /**
   * @param atMs UTC milliseconds since the epoch
   * @throws RangeError when the instant is not a number a date can have
   */
  constructor(station: Station, atMs: number) {
    const date = new Date(atMs);
    if (Number.isNaN(date.getTime())) throw new RangeError(`no such instant: ${atMs} ms`);
    this.atMs = atMs;
    this.#time = new AstroTime(date);
    this.#offset = station.offset;
    this.#solarSystem = station.ephemeris.at(atMs, this.#time);
    this.#toSiteAxes = CombineRotation(this.#solarSystem.toDate, Rotation_EQD_HOR(this.#time, station.observer));
  }

  /** The Sun's centre. */
  get sun(): Direction {
    return direction(this.#seenFromSite(this.#sun()));
  }

  /** The Moon's centre. */
  get moon(): MoonPlace {
    this.#moonSeen ??= moonPlace(this.#seenFromSite(this.#solarSystem.moon));
    return this.#moonSeen;
  }

  /** The Moon's phase. */
  get moonPhase(): MoonPhase {
    const { moon } = this.#solarSystem;
    const sun = this.#sun();
    const angleDeg = AngleBetween(moon, new Vector(moon.x - sun.x, moon.y - sun.y, moon.z - sun.z, this.#time));
    return { angleDeg, illumination: (1 + Math.cos(angleDeg * RAD)) / 2 };
  }

  /** Whether the Moon is on its way from new to full. */
  get moonWaxing(): boolean {
    return PairLongitude(Body.Moon, Body.Sun, this.#time) < 180;
  }

  /** Where a fixed target stands; J2000 / ICRS degrees in. */
  direction(target: Pick<Target, 'raDeg' | 'decDeg'>): Direction {
    const { vx, vy, vz } = this.#solarSystem.earth;
    const star = VectorFromSphere(new Spherical(target.decDeg, target.raDeg, 1), this.#time);
    // Annual aberration to first order in v/c; the Earth's way around the Sun stands for that around the barycentre
    // (0.01″).
    const seen = new Vector(star.x + vx / C_AUDAY, star.y + vy / C_AUDAY, star.z + vz / C_AUDAY, this.#time);
    return direction(RotateVector(this.#toSiteAxes, seen));
  }

  /** The Sun where the Earth of one light time ago puts it, which is aberration and light time in one. J2000, AU. */
  #sun(): Vector {
    if (this.#sunFromEarth !== undefined) return this.#sunFromEarth;
    const { x, y, z, vx, vy, vz } = this.#solarSystem.earth;
    const lightDays = Math.hypot(x, y, z) / C_AUDAY;
    this.#sunFromEarth = new Vector(vx * lightDays - x, vy * lightDays - y, vz * lightDays - z, this.#time);
    return this.#sunFromEarth;
  }

  /** From the Earth's centre to the site: this is where parallax comes in. */
  #seenFromSite(geocentric: Vector): Vector {
    const { x, y, z } = RotateVector(this.#toSiteAxes, geocentric);
    return new Vector(x - this.#offset.x, y - this.#offset.y, z - this.#offset.z, this.#time);
  }
}

function moonPlace(seen: Vector): MoonPlace {
  const { altitudeDeg, azimuthDeg } = direction(seen);
  const distanceKm = seen.Length() * KM_PER_AU;
  return { altitudeDeg, azimuthDeg, distanceKm, semidiameterDeg: Math.asin(MOON_RADIUS_KM / distanceKm) / RAD };
}

function direction(inSiteAxes: Vector): Direction {
  // An empty name is the library's way to say: no refraction.
  const { lat, lon } = HorizonFromVector(inSiteAxes, '');
  return { altitudeDeg: lat, azimuthDeg: lon };
}
