import { Observer } from 'astronomy-engine';
import { elevationOf, separationDeg, type Site, type SkyPosition, type Target } from '../model/index.js';
import { airmass } from './airmass.js';
import { limitAt } from './horizon.js';
import { SkyMoment, Station } from './moment.js';
import { airAtElevation, apparentAltitude } from './refraction.js';

/** The sky over one site, for many instants and targets; the costly Sun and Moon are computed every six hours. */
export interface SkyObserver {
  readonly site: Site;
  /** Directions without refraction at an instant, UTC ms. */
  at(atMs: number): SkyMoment;
  /** Positions of target, Moon and Sun at an instant, UTC ms. */
  position(target: Place, atMs: number): SkyPosition;
  /** A target's altitude relative to its limit at an instant, degrees; negative below it. */
  clearance(target: Place, atMs: number): number;
}

/** A fixed position in the sky, J2000 / ICRS degrees. */
export type Place = Pick<Target, 'raDeg' | 'decDeg'>;

/**
 * Makes an observer for a site; use one for a whole night.
 *
 * Against ERFA the Moon is good to 0.003°, Sun and targets to 0.001°, for dates within some decades of today.
 *
 * @throws RangeError when latitude, longitude or elevation is not a number or the latitude exceeds 90°
 */
export function makeSkyObserver(site: Site): SkyObserver {
  const { latitudeDeg, longitudeDeg } = site;
  const elevationM = elevationOf(site);
  if (![latitudeDeg, longitudeDeg, elevationM].every(Number.isFinite) || Math.abs(latitudeDeg) > 90) {
    throw new RangeError(
      `no such place: latitude ${latitudeDeg}°, longitude ${longitudeDeg}°, elevation ${elevationM} m`,
    );
  }
  const station = new Station(new Observer(latitudeDeg, longitudeDeg, elevationM));
  const air = airAtElevation(elevationM);

  // Several targets, or a target and the Moon, are requested in succession at the same instant.
  let latest: SkyMoment | undefined;
  function at(atMs: number): SkyMoment {
    if (latest?.atMs !== atMs) latest = new SkyMoment(station, atMs);
    return latest;
  }

  function clearance(target: Place, atMs: number): number {
    const { altitudeDeg, azimuthDeg } = at(atMs).direction(target);
    return apparentAltitude(altitudeDeg, air) - limitAt(site, azimuthDeg);
  }

  function position(target: Place, atMs: number): SkyPosition {
    const moment = at(atMs);
    const { moon, moonPhase, sun } = moment;
    const place = moment.direction(target);
    const altitudeDeg = apparentAltitude(place.altitudeDeg, air);
    return {
      atMs,
      altitudeDeg,
      azimuthDeg: place.azimuthDeg,
      airmass: airmass(altitudeDeg),
      moonAltitudeDeg: apparentAltitude(moon.altitudeDeg, air),
      moonSeparationDeg: separationDeg(place.azimuthDeg, place.altitudeDeg, moon.azimuthDeg, moon.altitudeDeg),
      moonIllumination: moonPhase.illumination,
      moonPhaseAngleDeg: moonPhase.angleDeg,
      sunAltitudeDeg: sun.altitudeDeg,
      limitDeg: limitAt(site, place.azimuthDeg),
    };
  }

  return { site, at, position, clearance };
}

/** The observer itself, or a new one for a site: lets functions take either. */
export function observerOf(where: Site | SkyObserver): SkyObserver {
  return 'site' in where ? where : makeSkyObserver(where);
}

/**
 * Positions of a target, the Moon and the Sun over a site at one instant.
 *
 * The target's and the Moon's altitudes are apparent: refracted by the mean air at the site's height. The Sun's is the
 * true altitude of its centre, as twilights are defined. The separation is the angle between the centres as seen from
 * the site, without refraction. Illumination and phase angle are those of almanacs, from the Earth's centre.
 *
 * @param where the site, or an observer of it if many instants or several targets are requested
 * @param target J2000 / ICRS degrees
 * @param atMs UTC milliseconds since the epoch
 */
export function skyPosition(where: Site | SkyObserver, target: Place, atMs: number): SkyPosition {
  return observerOf(where).position(target, atMs);
}
