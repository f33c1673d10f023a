import {
  AstroTime,
  Body,
  GeoMoon,
  HelioState,
  RotateVector,
  RotationMatrix,
  Rotation_EQJ_EQD,
  Vector,
} from 'astronomy-engine';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Ephemeris, type SolarSystem } from '../../src/sky/ephemeris.js';
import { ms } from './invented-site.js';
import { runs } from '../support/runs.js';

const ARCSEC = 1 / 3600;
const instant = fc.integer({ min: ms('1990-01-01T00:00:00Z'), max: ms('2040-01-01T00:00:00Z') });

test('between its nodes Moon, Earth and equinox are those of the full theories', () => {
  const ephemeris = new Ephemeris();
  fc.assert(
    fc.property(instant, (atMs) => {
      const time = new AstroTime(new Date(atMs));
      const { moon, earth, speed, toDate } = named(ephemeris.at(atMs));
      const full = HelioState(Body.Earth, time);
      const fullMoon = GeoMoon(time);
      // Distances in AU: 1e-12 is 0.15 km.
      expect(distance(moon, fullMoon) / fullMoon.Length()).toBeLessThan(0.0005 * ARCSEC * (Math.PI / 180));
      expect(distance(earth, full)).toBeLessThan(1e-11);
      expect(Math.hypot(speed.x - full.vx, speed.y - full.vy, speed.z - full.vz)).toBeLessThan(1e-10);
      // The arc cosine of an angle this small is noise: the chord is measured.
      const [seen, expected] = [RotateVector(toDate, fullMoon), RotateVector(Rotation_EQJ_EQD(time), fullMoon)];
      expect(distance(seen, expected) / fullMoon.Length()).toBeLessThan(0.0005 * ARCSEC * (Math.PI / 180));
    }),
    runs(100),
  );
});

test('at a node they are the full theories to the last digits', () => {
  const atMs = ms('2026-10-14T18:00:00Z');
  const time = new AstroTime(new Date(atMs));
  const { moon } = named(new Ephemeris().at(atMs));
  expect(distance(moon, GeoMoon(time))).toBeLessThan(1e-16);
});

test('a place does not depend on what was asked before, however much that was', () => {
  const atMs = ms('2026-10-14T22:17:00Z');
  const used = new Ephemeris();
  const before = used.at(atMs);
  for (let steps = 0; steps < 1100; steps++) used.at(atMs + steps * 6 * 3_600_000);
  expect(used.at(atMs)).toEqual(before);
  expect(new Ephemeris().at(atMs)).toEqual(before);
});

/** The eighteen numbers by what they are. */
function named(sky: SolarSystem) {
  const vector = (first: number): Vector => {
    const [x = NaN, y = NaN, z = NaN] = sky.slice(first);
    return new Vector(x, y, z, new AstroTime(0));
  };
  const turn = new RotationMatrix([sky.slice(9, 12), sky.slice(12, 15), sky.slice(15)]);
  return { moon: vector(0), earth: vector(3), speed: vector(6), toDate: turn };
}

function distance(a: { x: number; y: number; z: number }, b: { x: number; y: number; z: number }): number {
  return new Vector(a.x - b.x, a.y - b.y, a.z - b.z, new AstroTime(0)).Length();
}
