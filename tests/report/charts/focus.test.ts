import { describe, expect, it } from 'vitest';
import { focus } from '../../../src/report/charts/focus.js';
import { thinOut } from '../../../src/report/charts/series.js';
import { namedNight } from '../../support/nights.js';
import { drawn, missingOf, outline } from '../../support/charts.js';

describe('the focus chart', () => {
  it('shows how far each focuser moved, and the temperature', () => {
    const drawing = drawn(focus, namedNight('twin-night'));
    expect(Object.keys(outline(drawing))).toEqual(['temperature', 'heron', 'wren']);
    expect(drawing.altText).toMatch(
      /heron moved by −\d+ steps and wren moved by −\d+ steps while the temperature changed by −\d/,
    );
  });

  it('needs a focuser position or a temperature', () => {
    expect(missingOf(focus, namedNight('no-frames'))).toBe('no header gives a focuser position or temperature');
  });
});

describe('thinOut', () => {
  it('keeps short series, the ends of the range, and the order', () => {
    const points = Array.from({ length: 1000 }, (_, x) => ({ x, y: x === 500 ? 99 : x === 700 ? -99 : 0 }));
    const thin = thinOut(points, 100);
    expect(thin.length).toBeLessThanOrEqual(100);
    expect(Math.max(...thin.map((p) => p.y))).toBe(99);
    expect(Math.min(...thin.map((p) => p.y))).toBe(-99);
    expect(thin.map((p) => p.x)).toEqual(thin.map((p) => p.x).sort((a, b) => a - b));
    expect(thinOut(points.slice(0, 40), 100)).toHaveLength(40);
  });
});
