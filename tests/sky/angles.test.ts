import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formatDeclination, formatRightAscension, normaliseDegrees, parseDeclination, parseRightAscension, separationDeg,
} from '../../src/sky/index.js';

const longitude = fc.double({ min: -720, max: 720, noNaN: true });
const latitude = fc.double({ min: -90, max: 90, noNaN: true });

describe('right ascension', () => {
  test.each([
    ['00:52:59', 13.245833333],
    ['0h 52m 59s', 13.245833333],
    ['00 52 59.0', 13.245833333],
    ['0h52m59.5s', 13.247916667],
    ['  23:59:59.99 ', 359.999958333],
    ['1:30', 22.5],
    ['01 30.5', 22.625],
    ['1.5h', 22.5],
    ['22.5°', 22.5],
    ['22.5 deg', 22.5],
  ])('%s is read', (text, deg) => {
    expect(parseRightAscension(text)).toBeCloseTo(deg, 8);
  });

  test.each([
    ['24:00:00', /outside 0h to 24h/],
    ['400°', /outside 0h to 24h/],
    ['00:60:00', /60 or more/],
    ['00:10:61', /60 or more/],
    ['-01:00:00', /outside 0h to 24h/],
    ['13.25', /not understood.*00:52:59.*13\.25°/],
    ['M 33', /"M 33" is not understood/],
    ['', /not understood/],
    ['00:52.5:59', /fraction of a minute and seconds/],
    ['00:52:59:10', /not understood/],
  ])('"%s" is refused with the reason', (text, reason) => {
    expect(() => parseRightAscension(text)).toThrow(reason);
    expect(() => parseRightAscension(text)).toThrow(RangeError);
  });

  test('is written with carries, never as 60 seconds or 24 hours', () => {
    expect(formatRightAscension(13.245833333)).toBe('00h 52m 59s');
    expect(formatRightAscension(14.9999999)).toBe('01h 00m 00s');
    expect(formatRightAscension(359.9999999)).toBe('00h 00m 00s');
    expect(formatRightAscension(-15)).toBe('23h 00m 00s');
    expect(formatRightAscension(13.247916667, 1)).toBe('00h 52m 59.5s');
  });
});

describe('declination', () => {
  test.each([
    ['+56:37:19', 56.621944444],
    ['56 37 19', 56.621944444],
    ['-05:23:28', -5.391111111],
    ['−5° 23′ 28″', -5.391111111],
    ["-5d23'28\"", -5.391111111],
    ['-00:30:00', -0.5],
    ['-0:30', -0.5],
    ['56.62', 56.62],
    ['-90', -90],
  ])('%s is read', (text, deg) => {
    expect(parseDeclination(text)).toBeCloseTo(deg, 8);
  });

  test.each([
    ['+90:00:01', /outside −90° to \+90°/],
    ['91', /outside −90° to \+90°/],
    ['+56:99:00', /60 or more/],
    ['north', /"north" is not understood/],
    ['+5h 23m', /not understood/],
  ])('"%s" is refused with the reason', (text, reason) => {
    expect(() => parseDeclination(text)).toThrow(reason);
  });

  test('is written with its sign, also between 0° and −1°', () => {
    expect(formatDeclination(56.621944444)).toBe('+56° 37′ 19″');
    expect(formatDeclination(-0.5)).toBe('−00° 30′ 00″');
    expect(formatDeclination(-5.39999999)).toBe('−05° 24′ 00″');
    expect(formatDeclination(30.6602, 2)).toBe('+30° 39′ 36.72″');
  });
});

test('what is written is read back to the digits shown', () => {
  fc.assert(fc.property(fc.double({ min: 0, max: 359.99, noNaN: true }), latitude, (raDeg, decDeg) => {
    expect(parseRightAscension(formatRightAscension(raDeg, 3))).toBeCloseTo(raDeg, 5);
    expect(parseDeclination(formatDeclination(decDeg, 3))).toBeCloseTo(decDeg, 6);
  }));
});

test('normalised degrees lie in [0, 360) and keep the direction', () => {
  expect(normaliseDegrees(-90)).toBe(270);
  expect(normaliseDegrees(720)).toBe(0);
  fc.assert(fc.property(longitude, (deg) => {
    const normal = normaliseDegrees(deg);
    expect(normal).toBeGreaterThanOrEqual(0);
    expect(normal).toBeLessThan(360);
    expect(Math.cos((normal * Math.PI) / 180)).toBeCloseTo(Math.cos((deg * Math.PI) / 180), 9);
  }));
});

describe('separation', () => {
  test('keeps tiny angles that an arc cosine loses', () => {
    const milliarcsecond = 1 / 3.6e6;
    expect(separationDeg(100, 40, 100, 40 + milliarcsecond) * 3.6e6).toBeCloseTo(1, 4);
    expect(separationDeg(10, 0, 190, milliarcsecond)).toBeCloseTo(180 - milliarcsecond, 12);
  });

  test('is symmetric, between 0° and 180°, and nothing from a place to itself', () => {
    fc.assert(fc.property(longitude, latitude, longitude, latitude, (a, b, c, d) => {
      const there = separationDeg(a, b, c, d);
      expect(there).toBeGreaterThanOrEqual(0);
      expect(there).toBeLessThanOrEqual(180);
      expect(separationDeg(c, d, a, b)).toBeCloseTo(there, 9);
      expect(separationDeg(a, b, a, b)).toBeCloseTo(0, 12);
    }));
  });
});
