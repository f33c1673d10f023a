import { elevationOf } from '../../src/model/index.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  airAtElevation,
  airmass,
  apparentAltitude,
  limitAt,
  makeSkyObserver,
  skyPosition,
} from '../../src/sky/index.js';
import { inventedSite, M_33, ms, NGC_281 } from './invented-site.js';
import { runs } from '../support/runs.js';

const site = inventedSite({
  horizon: [
    [0, 10],
    [120, 35],
    [240, 15],
  ],
});
const observer = makeSkyObserver(site);
const instant = fc.integer({ min: ms('2024-01-01T00:00:00Z'), max: ms('2032-01-01T00:00:00Z') });

describe('the position of a target', () => {
  test('is the same from a site and from an observer of it', () => {
    const at = ms('2026-10-14T23:10:00Z');
    expect(skyPosition(site, NGC_281, at)).toEqual(observer.position(NGC_281, at));
  });

  test('has apparent altitudes for target and Moon, and the true one for the Sun', () => {
    const air = airAtElevation(elevationOf(site));
    fc.assert(
      fc.property(instant, (at) => {
        const moment = observer.at(at);
        const position = observer.position(M_33, at);
        expect(position.altitudeDeg).toBe(apparentAltitude(moment.direction(M_33).altitudeDeg, air));
        expect(position.moonAltitudeDeg).toBe(apparentAltitude(moment.moon.altitudeDeg, air));
        expect(position.sunAltitudeDeg).toBe(moment.sun.altitudeDeg);
      }),
      runs(50),
    );
  });

  test('has an air mass above the horizon only, and the limit of its azimuth', () => {
    fc.assert(
      fc.property(instant, (at) => {
        const position = observer.position(M_33, at);
        expect(position.airmass).toBe(airmass(position.altitudeDeg));
        expect(position.airmass === null).toBe(position.altitudeDeg < 0);
        expect(position.limitDeg).toBe(limitAt(site, position.azimuthDeg));
        expect(observer.clearance(M_33, at)).toBeCloseTo(position.altitudeDeg - position.limitDeg, 12);
      }),
      runs(50),
    );
  });

  test('stays within what angles can be, and phase and illumination agree', () => {
    fc.assert(
      fc.property(instant, (at) => {
        const p = observer.position(NGC_281, at);
        expect(Math.abs(p.altitudeDeg)).toBeLessThanOrEqual(90);
        expect(p.azimuthDeg).toBeGreaterThanOrEqual(0);
        expect(p.azimuthDeg).toBeLessThan(360);
        expect(p.moonSeparationDeg).toBeGreaterThanOrEqual(0);
        expect(p.moonSeparationDeg).toBeLessThanOrEqual(180);
        expect(p.moonIllumination).toBeCloseTo((1 + Math.cos((p.moonPhaseAngleDeg * Math.PI) / 180)) / 2, 12);
      }),
      runs(50),
    );
  });

  test('culminates in the south at 90° − latitude + declination', () => {
    const altitudes = Array.from({ length: 24 * 60 }, (_, minute) =>
      observer.position(M_33, ms('2026-10-14T12:00:00Z') + minute * 60_000),
    );
    const highest = altitudes.reduce((best, p) => (p.altitudeDeg > best.altitudeDeg ? p : best));
    // Precession since 2000 adds 0.14° to the declination of M 33.
    expect(highest.altitudeDeg).toBeCloseTo(90 - site.latitudeDeg + M_33.decDeg + 0.14, 1);
    expect(Math.abs(highest.azimuthDeg - 180)).toBeLessThan(1.5);
  });
});
