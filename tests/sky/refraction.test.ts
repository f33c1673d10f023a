import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  airAtElevation,
  apparentAltitude,
  REFERENCE_AIR,
  refractionFromApparent,
  refractionFromTrue,
} from '../../src/sky/index.js';

const altitude = fc.double({ min: 0, max: 90, noNaN: true });

describe('refraction', () => {
  test('is about 34′ for what is seen on the horizon and nothing at the zenith', () => {
    expect((refractionFromApparent(0) ?? NaN) * 60).toBeCloseTo(34.5, 1);
    expect(refractionFromApparent(90)).toBe(0);
    expect(refractionFromTrue(90)).toBe(0);
  });

  test('is not defined below the horizon, nor for what is no number', () => {
    expect(refractionFromApparent(-0.001)).toBeNull();
    expect(refractionFromTrue(-0.7)).toBeNull();
    expect(refractionFromTrue(-30)).toBeNull();
    expect(refractionFromTrue(-0.5)).not.toBeNull();
    expect(refractionFromApparent(NaN)).toBeNull();
    expect(refractionFromTrue(NaN)).toBeNull();
  });

  test('the two formulas undo each other to 0.1′', () => {
    fc.assert(
      fc.property(altitude, (trueDeg) => {
        const lift = refractionFromTrue(trueDeg) ?? NaN;
        const drop = refractionFromApparent(trueDeg + lift) ?? NaN;
        expect(Math.abs(lift - drop) * 60).toBeLessThan(0.1);
      }),
    );
  });

  test('scales with pressure and with the inverse of the temperature', () => {
    const at10 = refractionFromApparent(10) ?? NaN;
    expect(refractionFromApparent(10, { pressureHpa: 505, temperatureC: 10 })).toBeCloseTo(at10 / 2, 12);
    expect(refractionFromApparent(10, { pressureHpa: 1010, temperatureC: -10 })).toBeCloseTo((at10 * 283) / 263, 12);
  });

  test('the air thins with height as in the standard atmosphere', () => {
    // ISO 2533 table values, hPa (from memory): 0 m 1013.25, 1000 m 898.75, 2000 m 794.95.
    expect(airAtElevation(0).pressureHpa).toBeCloseTo(1013.25, 2);
    expect(airAtElevation(1000).pressureHpa).toBeCloseTo(898.75, 0);
    expect(airAtElevation(2000).pressureHpa).toBeCloseTo(794.95, 0);
  });
});

describe('apparent altitude', () => {
  test('lifts by the refraction above the horizon and is the true altitude far below', () => {
    expect(apparentAltitude(20)).toBeCloseTo(20 + (refractionFromTrue(20) ?? NaN), 12);
    expect(apparentAltitude(-5)).toBe(-5);
    expect(apparentAltitude(-60)).toBe(-60);
  });

  test('rises with the true altitude without a step, through the horizon too', () => {
    const airs = fc.constantFrom(REFERENCE_AIR, airAtElevation(0), airAtElevation(3000));
    fc.assert(
      fc.property(fc.double({ min: -90, max: 89.99, noNaN: true }), airs, (trueDeg, air) => {
        const gain = apparentAltitude(trueDeg + 0.001, air) - apparentAltitude(trueDeg, air);
        expect(gain).toBeGreaterThan(0);
        expect(gain).toBeLessThan(0.002);
      }),
    );
  });
});
