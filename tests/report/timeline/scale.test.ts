import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { interval } from '../../../src/model/index.js';
import { cutToWidth, fitClass, fitStyles, textWidthPx, timeScale } from '../../../src/report/timeline/scale.js';

describe('timeScale', () => {
  const scale = timeScale(interval(1000, 5000));

  it('places in per cent, and never outside', () => {
    expect([scale.x(1000), scale.x(2000), scale.x(5000), scale.x(0), scale.x(9000)]).toEqual([
      '0%',
      '25%',
      '100%',
      '0%',
      '100%',
    ]);
    expect(scale.width(4000, 9000)).toBe('25%');
  });

  it('gives neighbours widths that fill the axis', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 3999 }), { maxLength: 20 }), (cuts) => {
        const edges = [1000, ...[...new Set(cuts)].sort((a, b) => a - b).map((cut) => 1000 + cut), 5000];
        const sum = edges.slice(1).reduce((total, edge, index) => total + scale.share(edges[index] ?? 0, edge), 0);
        expect(sum).toBeCloseTo(1, 9);
      }),
    );
  });

  it('shows what has any part in view', () => {
    expect(scale.shows(interval(0, 1001))).toBe(true);
    expect(scale.shows(interval(0, 1000))).toBe(false);
    expect(scale.shows(interval(5000, 6000))).toBe(false);
  });
});

describe('labels', () => {
  it('appear from the width at which they fit', () => {
    expect(fitClass(20, 0.1, 0)).toBe('fit-240');
    expect(fitClass(20, 0.03, 0)).toBe('fit-680');
    expect(fitClass(20, 0.001, 0)).toBeNull();
  });

  it('have a rule in the style sheet for every width', () => {
    const css = fitStyles();
    for (let share = 0.02; share < 1; share += 0.01) {
      const fit = fitClass(20, share);
      expect(css).toContain(`{.${fit}{display:inline}}`);
      expect(Number(fit?.slice(4)) * share).toBeGreaterThanOrEqual(20);
    }
  });

  it('are cut with an ellipsis, and never wider than their place', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), fc.integer({ min: 0, max: 300 }), (text, width) => {
        const cut = cutToWidth(text, width);
        expect(cut === text || cut === '' || cut.endsWith('…')).toBe(true);
        expect(cut === '' || textWidthPx(cut) <= width).toBe(true);
      }),
    );
  });
});
