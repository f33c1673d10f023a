import { describe, expect, it } from 'vitest';
import { ditherMapView } from '../../../src/report/pointing/dither-map.js';
import { angle, fieldsView } from '../../../src/report/pointing/fields.js';
import { roundLength } from '../../../src/report/pointing/paper.js';
import { pairOf, pointingOf, spreadOf } from '../../support/pointing.js';

const corners = (points: string): (readonly [number, number])[] =>
  points.split(' ').map((p) => {
    const [x = NaN, y = NaN] = p.split(',').map(Number);
    return [x, y];
  });
/** Area by the shoelace formula. */
const area = (points: string): number => {
  const all = corners(points);
  const twice = all.reduce((sum, [x, y], i) => {
    const [u, v] = all[(i + 1) % all.length] ?? [0, 0];
    return sum + x * v - u * y;
  }, 0);
  return Math.abs(twice) / 2;
};
const colour = (train: string) => (train === 'heron' ? 'train-1' : 'train-2');

describe('two fields drawn over each other', () => {
  const pair = pairOf({ turnDeg: 30, asideArcsec: 900 });
  const view = fieldsView(pair, pointingOf('heron'), pointingOf('wren'), colour);

  it('are to scale: areas on paper are as areas in the sky', () => {
    // Same sensors: the areas are as the squares of the arcseconds per pixel.
    expect(area(view.first.points) / area(view.second.points)).toBeCloseTo((1.6157 / 1.2926) ** 2, 2);
    expect((100 * area(view.common)) / area(view.first.points)).toBeCloseTo(pair.geometry.overlapPercent.a, 0);
  });

  it('stay within the drawing, with the first row of pixels below', () => {
    for (const [x, y] of [...corners(view.first.points), ...corners(view.second.points)]) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(view.width);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(view.height);
    }
    const [first, , third] = corners(view.first.points);
    expect(first?.[1]).toBeGreaterThan(third?.[1] ?? NaN);
  });

  it('have a bar whose length is what it says', () => {
    const arcsecPerUnit =
      (6248 * 1.6157) / ((corners(view.first.points)[1]?.[0] ?? 0) - (corners(view.first.points)[0]?.[0] ?? 0));
    const minutes = ((view.bar.xEnd - view.bar.x) * arcsecPerUnit) / 60;
    expect(`${minutes.toFixed(1)}′`).toBe(view.bar.text);
  });

  it('show the ring on which the target lies, to scale about the first train’s middle', () => {
    const [a, b] = corners(view.first.points);
    const unitsPerPx = ((b?.[0] ?? 0) - (a?.[0] ?? 0)) / 6248;
    const ringOf = (targetOffArcsec: number | null) =>
      fieldsView(pair, pointingOf('heron', { targetOffArcsec }), pointingOf('wren'), colour).target;
    expect(ringOf(1200)?.r).toBeCloseTo((1200 / 1.6157) * unitsPerPx, 1);
    expect(ringOf(1200)).toMatchObject({ ...view.first.centre, text: 'NGC 281' });
    // Half a diagonal is 3757 px of 1.6157″.
    expect(ringOf(6100)).toBeNull();
    expect(ringOf(null)).toBeNull();
  });

  it('lay the companion’s middle where the pair’s geometry has it', () => {
    const [a, b] = corners(view.first.points);
    const unitsPerPx = ((b?.[0] ?? 0) - (a?.[0] ?? 0)) / 6248;
    expect((view.second.centre.x - view.first.centre.x) / unitsPerPx).toBeCloseTo(900 / 1.6157, 0);
    expect(view.second.centre.y).toBeCloseTo(view.first.centre.y, 1);
  });
});

describe('a map of dithers', () => {
  it('numbers its places and marks those that repeat', () => {
    const view = ditherMapView(
      { train: 'heron', target: 'NGC 281' },
      spreadOf([
        [0, 0],
        [5, 5],
        [0.4, 0.3],
      ]),
      'train-1',
      () => '21:00',
    );
    expect(view.places.map(({ text, repeats }) => [text, repeats])).toEqual([
      ['1', true],
      ['2', false],
      ['3', true],
    ]);
    expect(view.label).toContain('3 places, 1 pair within a pixel');
  });

  it('leaves numbers out that would cover each other, but for the first and the last', () => {
    const many = spreadOf(Array.from({ length: 60 }, (_, i) => [Math.cos(i) * 9, Math.sin(i) * 9] as const));
    const view = ditherMapView({ train: 'heron', target: 'NGC 281' }, many, 'train-1', () => '');
    expect(view.places.filter(({ text }) => text !== '').map(({ text }) => text)).toEqual(['1', '60']);
  });

  it('of places that are one and the same is still drawn', () => {
    const same = spreadOf([
      [3, 3],
      [3, 3],
      [3, 3],
    ]);
    const view = ditherMapView({ train: 'heron', target: 'NGC 281' }, same, 'train-1', () => '');
    expect(JSON.stringify(view)).not.toMatch(/null|NaN/);
  });
});

describe('lengths', () => {
  it('are round', () => {
    expect([0.7, 1, 3.9, 49, 70].map(roundLength)).toEqual([0.5, 1, 2, 20, 50]);
    expect([4.2, 24, 119.6, 150].map(angle)).toEqual(['4.2″', '24″', '120″', '2.5′']);
  });
});
