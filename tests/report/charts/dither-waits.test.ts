import { describe, expect, it } from 'vitest';
import { ditherWaits } from '../../../src/report/charts/dither-waits.js';
import { altered } from '../../support/altered.js';
import { namedNight } from '../../support/nights.js';
import { drawn, heights, missingOf, outline } from '../../support/charts.js';

describe('the chart of waits', () => {
  it('has a bar for each train and cycle: the pilot above the line, companions below', () => {
    const night = namedNight('twin-night');
    const drawing = drawn(ditherWaits, night);
    expect(outline(drawing)).toEqual({ heron: night.accounts.dithers.length, wren: night.accounts.dithers.length });
    const seconds = (train: string): number[] =>
      night.accounts.dithers.map((cycle) => (cycle.waits[train]?.waitMs ?? 0) / 1000);
    expect(heights(drawing, 'heron')).toEqual(seconds('heron'));
    expect(heights(drawing, 'wren')).toEqual(seconds('wren').map((wait) => -wait));
  });

  it('says how long each waited in all', () => {
    expect(drawn(ditherWaits, namedNight('twin-night')).altText).toMatch(
      /heron \d+ min in all, half of them below \d+ s and wren/,
    );
  });

  it('needs two trains and a dither', () => {
    expect(missingOf(ditherWaits, namedNight('one-train'))).toBe('a single train waits for nobody');
    expect(missingOf(ditherWaits, altered(namedNight('headers-only'), { accounts: { dithers: [] } }))).toBe(
      'no dither is logged',
    );
  });
});
