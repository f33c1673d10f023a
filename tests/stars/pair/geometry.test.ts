import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pairGeometry, polarErrorAtLeastArcmin } from '../../../src/stars/pair/index.js';
import { centreOf, clipToSensor, cornersOf, polygonArea, sharedField } from '../../../src/stars/registration/index.js';
import { cameraAt, SENSOR } from '../registration/drawn-sky.js';

const identity = { x: 0, y: 0, rotation: 0, scale: 1, mirrored: false };
const SQUARE = { width: 1000, height: 1000 };
const field = { size: SQUARE, scaleArcsec: 2 };

describe('two fields over each other', () => {
  it('that are the same have all in common', () => {
    const pair = pairGeometry(identity, field, { size: SQUARE });
    expect(pair.overlapPercent).toEqual({ a: 100, b: 100 });
    expect(pair.offsetArcsec).toBe(0);
    expect(pair.overlapPolygon.a).toHaveLength(4);
  });

  it('shifted by a quarter have three quarters in common, and centring wins the rest', () => {
    const pair = pairGeometry({ ...identity, x: 250 }, field, { size: SQUARE });
    expect(pair.overlapPercent.a).toBeCloseTo(75, 9);
    expect(pair.offsetArcsec).toBeCloseTo(500, 9);
    expect(pair.offsetPx.x).toBeCloseTo(-250, 9);
    expect(pair.centred.overlapPercent.a).toBeCloseTo(100, 9);
  });

  it('a longer focal length sees part of the shorter one’s field: 1/1.25² of it', () => {
    const toB = cameraAt(centreOf(SQUARE), 0, 1.25, false, SQUARE);
    const pair = pairGeometry(toB, field, { size: SQUARE });
    expect(pair.overlapPercent.a).toBeCloseTo(64, 9);
    expect(pair.overlapPercent.b).toBeCloseTo(100, 9);
    expect(pair.scaleRatio).toBe(1.25);
  });

  it('two squares an eighth of a turn apart share an octagon: 2(√2 − 1) of each', () => {
    // A textbook figure: the regular octagon common to two unit squares turned by 45° has the area 2(√2 − 1) = 0.8284.
    const pair = pairGeometry(cameraAt(centreOf(SQUARE), 45, 1, false, SQUARE), field, { size: SQUARE });
    expect(pair.overlapPolygon.a).toHaveLength(8);
    expect(pair.overlapPercent.a).toBeCloseTo(200 * (Math.SQRT2 - 1), 9);
    expect(pair.turn.byDeg).toBeCloseTo(45, 9);
    expect(pair.turn.overlapPercent.a).toBeCloseTo(100, 9);
  });

  it('turned by half a turn have nothing to win by turning', () => {
    const pair = pairGeometry(cameraAt(centreOf(SENSOR), 180, 1), { size: SENSOR, scaleArcsec: 1 }, { size: SENSOR });
    expect(Math.abs(pair.turn.byDeg)).toBeLessThan(1e-9);
    expect(pair.overlapPercent.a).toBeCloseTo(100, 9);
  });

  it('apart have nothing in common, and say so', () => {
    const pair = pairGeometry({ ...identity, x: 5000 }, field, { size: SQUARE });
    expect(pair.overlapPercent).toEqual({ a: 0, b: 0 });
    expect(pair.overlapPolygon).toEqual({ a: [], b: [] });
  });

  it('share the same sky, whichever is asked: area over scale² (property)', () => {
    const cameras = fc.record({
      x: fc.double({ min: -600, max: 600, noNaN: true }),
      y: fc.double({ min: -600, max: 600, noNaN: true }),
      turn: fc.double({ min: -180, max: 180, noNaN: true }),
      scale: fc.double({ min: 0.4, max: 2.5, noNaN: true }),
      mirrored: fc.boolean(),
    });
    fc.assert(
      fc.property(cameras, ({ x, y, turn, scale, mirrored }) => {
        const middle = centreOf(SQUARE);
        const toB = cameraAt({ x: middle.x + x, y: middle.y + y }, turn, scale, mirrored, SQUARE);
        const pair = pairGeometry(toB, field, { size: SQUARE });
        expect(pair.overlapPercent.a * scale * scale).toBeCloseTo(pair.overlapPercent.b, 6);
        expect(polygonArea(pair.overlapPolygon.a) / 1e4).toBeCloseTo(pair.overlapPercent.a, 6);
        // Lining up the sides of squares wins whenever their centres agree.
        if (x === 0 && y === 0) expect(pair.turn.overlapPercent.a).toBeGreaterThanOrEqual(pair.overlapPercent.a - 1e-9);
      }),
    );
  });
});

describe('a polygon on a sensor', () => {
  it('that holds the sensor is cut to it', () => {
    const wide = cornersOf({ width: 5000, height: 5000 }).map((p) => ({ x: p.x - 2000, y: p.y - 2000 }));
    expect(polygonArea(clipToSensor(wide, SQUARE))).toBe(1e6);
    expect(sharedField({ ...identity, x: 500 }, SQUARE, SQUARE)).toBeCloseTo(0.5, 9);
  });
});

describe('the polar axis by the rotation of the field', () => {
  it('one arcmin off turns a field on the equator by 0.00436° an hour at most', () => {
    // ρ·ω: (1/60)° · 15.041°/h · π/180 (by hand).
    expect(polarErrorAtLeastArcmin(0.0043755, 0)).toBeCloseTo(1, 3);
    expect(polarErrorAtLeastArcmin(0.0043755, 60)).toBeCloseTo(0.5, 3);
    expect(polarErrorAtLeastArcmin(-0.0043755, -60)).toBeCloseTo(0.5, 3);
  });

  it('agrees with two poles drawn on the sphere', () => {
    // The angle at the star between the true pole and one 3 arcmin off, an hour apart, by spherical trigonometry.
    const radians = Math.PI / 180;
    const off = 3 / 60;
    const position = (hourAngle: number, declination: number) => {
      const side = off * radians;
      const h = hourAngle * radians;
      const d = declination * radians;
      return Math.atan2(
        Math.sin(side) * Math.sin(h),
        Math.cos(side) * Math.cos(d) - Math.sin(side) * Math.sin(d) * Math.cos(h),
      );
    };
    for (const declination of [0, 40, 70]) {
      const rate = (position(7.52, declination) - position(-7.52, declination)) / radians;
      expect(polarErrorAtLeastArcmin(rate, declination)).toBeCloseTo(3, 1);
    }
  });
});
