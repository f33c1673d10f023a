/**
 * Worked examples of J. Meeus, *Astronomical Algorithms*, 2nd edition (Willmann-Bell 1998), numbered as there.
 * (R) result read in published code that transcribes the book, (C) recomputed with ERFA, (M) from memory.
 */
import {
  AstroTime,
  Body,
  e_tilt,
  EclipticGeoMoon,
  EquatorFromVector,
  GeoMoon,
  GeoVector,
  HorizonFromVector,
  KM_PER_AU,
  Observer,
  Rotation_EQD_HOR,
  Rotation_EQJ_EQD,
  RotateVector,
  SiderealTime,
  Spherical,
  SunPosition,
  VectorFromSphere,
} from 'astronomy-engine';
import { describe, expect, test } from 'vitest';
import { parseDeclinationDeg, parseRightAscensionDeg, separationDeg } from '../../src/model/index.js';
import { makeSkyObserver, refractionFromApparent, refractionFromTrue } from '../../src/sky/index.js';

const J2000_JD = 2_451_545;
const ARCSEC = 1 / 3600;

/** The book's sexagesimal figures in degrees. */
const ra = (text: string): number => parseRightAscensionDeg(text) ?? NaN;
const dec = (text: string): number => parseDeclinationDeg(text) ?? NaN;

/** Right ascension and declination in degrees of a J2000 vector, for the true equator and equinox of its date. */
function apparent(vector: ReturnType<typeof GeoMoon>): { raDeg: number; decDeg: number } {
  const { ra, dec } = EquatorFromVector(RotateVector(Rotation_EQJ_EQD(vector.t), vector));
  return { raDeg: ra * 15, decDeg: dec };
}

describe('sidereal time', () => {
  test('12.a: apparent at Greenwich, JD 2446895.5, 13h10m46.1351s (R, C), to 0.01 s', () => {
    const hours = SiderealTime(new AstroTime(2446895.5 - J2000_JD));
    expect(Math.abs(hours * 15 - ra('13:10:46.1351')) * 240).toBeLessThan(0.01);
  });

  test('12.b: mean at Greenwich, 1987-04-10 19:21 UT, 8h34m57.0896s (R, C), to 0.01 s', () => {
    const time = new AstroTime(new Date('1987-04-10T19:21:00Z'));
    const meanDeg = SiderealTime(time) * 15 - (e_tilt(time).ee * 15) / 3600;
    expect(Math.abs(meanDeg - ra('08:34:57.0896')) * 240).toBeLessThan(0.01);
  });
});

test('13.b: an apparent place seen from Washington stands at azimuth 248.034°, altitude 15.125° (R, C)', () => {
  const time = new AstroTime(new Date('1987-04-10T19:21:00Z'));
  const washington = new Observer(dec('+38:55:17'), -(77 + 3 / 60 + 56 / 3600), 0);
  const place = VectorFromSphere(new Spherical(dec('-6:43:11.61'), ra('23:09:16.641'), 1), time);
  const seen = HorizonFromVector(RotateVector(Rotation_EQD_HOR(time, washington), place), '');
  expect(seen.lon).toBeCloseTo(248.034, 3);
  expect(seen.lat).toBeCloseTo(15.125, 3);
});

test('16.a: refraction of 28.754′ at an apparent 30′, of 24.618′ at a true 33.246′ (R, C)', () => {
  expect((refractionFromApparent(30 / 60) ?? NaN) * 60).toBeCloseTo(28.754, 3);
  expect((refractionFromTrue(33.246 / 60) ?? NaN) * 60).toBeCloseTo(24.618, 3);
});

test('17.a: Arcturus and Spica are 32°47′35″ apart (R; their places M)', () => {
  const arcturus = [ra('14:15:39.7'), dec('+19:10:57')] as const;
  const spica = [ra('13:25:11.6'), dec('-11:09:41')] as const;
  expect(separationDeg(...arcturus, ...spica)).toBeCloseTo(32.793, 4);
  expect(separationDeg(...arcturus, ...spica)).toBeCloseTo(dec('32:47:35'), 3);
});

describe('the Sun at JDE 2448908.5, 1992-10-13', () => {
  const time = AstroTime.FromTerrestrialTime(2448908.5 - J2000_JD);

  test('25.b: stands at α 13h13m30.749s, δ −7°47′01.74″ (R), to 1″', () => {
    const sun = apparent(GeoVector(Body.Sun, time, true));
    const away = separationDeg(sun.raDeg, sun.decDeg, ra('13:13:30.749'), dec('-7:47:01.74'));
    expect(away).toBeLessThan(1 * ARCSEC);
  });

  test('25.a: the short method of the book, α 13h13m31.4s, δ −7°47′06″ and 199.90987° (R), is met to its own 0.01°', () => {
    const sun = apparent(GeoVector(Body.Sun, time, true));
    expect(separationDeg(sun.raDeg, sun.decDeg, ra('13:13:31.4'), dec('-7:47:06'))).toBeLessThan(0.01);
    expect(Math.abs(SunPosition(time).elon - 199.90987)).toBeLessThan(0.01);
  });
});

describe('the Moon at JDE 2448724.5, 1992-04-12', () => {
  const time = AstroTime.FromTerrestrialTime(2448724.5 - J2000_JD);
  /** 0.005° is what the sky tables ask for; the library is made to 0.017°. */
  const TOLERANCE_DEG = 0.005;

  test('47.a: λ 133.162655° (mean equinox), β −3.229126°, distance 368409.7 km, parallax 0.991990° (R)', () => {
    const moon = EclipticGeoMoon(time);
    const meanLongitude = moon.lon - e_tilt(time).dpsi * ARCSEC;
    expect(Math.abs(meanLongitude - 133.162655)).toBeLessThan(TOLERANCE_DEG);
    expect(Math.abs(moon.lat - -3.229126)).toBeLessThan(TOLERANCE_DEG);
    const km = moon.dist * KM_PER_AU;
    expect(Math.abs(km - 368409.7)).toBeLessThan(20);
    expect((Math.asin(6378.14 / km) * 180) / Math.PI).toBeCloseTo(0.99199, 4);
  });

  test('47.a: apparent α 134.688470°, δ +13.768368° (M)', () => {
    const moon = apparent(GeoMoon(time));
    expect(separationDeg(moon.raDeg, moon.decDeg, 134.68847, 13.768368)).toBeLessThan(TOLERANCE_DEG);
    expect(Math.abs(moon.raDeg - ra('08:58:45')) * 240).toBeLessThan(0.6);
  });

  test('48.a: phase angle 69.0756° (R), illuminated fraction 0.6786 (M)', () => {
    const anywhere = {
      name: '',
      latitudeDeg: 0,
      longitudeDeg: 0,
      elevationM: 0,
      timezone: 'UTC',
      minimumAltitudeDeg: 0,
      horizon: [],
    };
    const { angleDeg, illumination } = makeSkyObserver(anywhere).at(time.date.getTime()).moonPhase;
    expect(Math.abs(angleDeg - 69.0756)).toBeLessThan(TOLERANCE_DEG);
    expect(illumination).toBeCloseTo(0.6786, 4);
  });
});
