import { describe, expect, it } from 'vitest';
import { ditherRepeats } from '../../src/findings/dither-repeats.js';
import { seeded } from '../support/generator/random.js';
import { EVEN_PLACES, pointed, pointingOf, spreadOf } from '../support/pointing.js';
import { ask, found, lights, nightOf } from './support.js';

const plain = nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) });

describe('dithers back to the same place', () => {
  it('are found with their times', () => {
    const twice = [...EVEN_PLACES.slice(0, 4), ...EVEN_PLACES.slice(0, 4).map(([x, y]) => [x + 0.4, y] as const)];
    const dithers = spreadOf(twice);
    const [finding] = found(ditherRepeats, pointed(plain, { pointings: [pointingOf('heron', { dithers })] }));
    expect(finding?.title).toBe('4 of heron’s 8 dither positions on NGC 281 lie within a pixel of an earlier one');
    expect(finding?.price).toBe('50 % of the positions');
    expect(finding?.evidence[0]).toContain(
      '4 pairs within a pixel on one side of the pier: 21:00 and 23:00, 0.4 px apart',
    );
  });

  it('are not found for one pair, or none', () => {
    const once = spreadOf([...EVEN_PLACES, [0.2, 0.1]]);
    expect(found(ditherRepeats, pointed(plain, { pointings: [pointingOf('heron', { dithers: once })] }))).toEqual([]);
    expect(found(ditherRepeats, pointed(plain))).toEqual([]);
  });

  it('are not found where random places of such a spread come as near: seeded, 5 px on each axis', () => {
    const random = seeded(7);
    const places = Array.from({ length: 120 }, () => [random.normal(0, 5), random.normal(0, 5)] as const);
    const dithers = spreadOf(places, { scatterPx: { x: 5, y: 5 } });
    expect(dithers.repeats.length).toBeGreaterThan(30);
    expect(found(ditherRepeats, pointed(plain, { pointings: [pointingOf('heron', { dithers })] }))).toEqual([]);
  });

  it('are not assessed without places', () => {
    expect(ask(ditherRepeats, plain)).toEqual({
      notAssessed: 'stars measured in frames of one field at three or more dither positions',
    });
  });
});
