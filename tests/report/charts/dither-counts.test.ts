import { describe, expect, it } from 'vitest';
import { ditherCounts } from '../../../src/report/charts/dither-counts.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { namedNight } from '../../support/nights.js';
import { replayedNight } from '../../support/replayed-night.js';

describe('the chart of dither counts', () => {
  it('has a bar for each count from 1 to 12, and none as high as the night’s own', () => {
    const drawing = drawn(ditherCounts, replayedNight('twin-night'));
    expect(Object.values(outline(drawing))).toEqual([12]);
    expect(drawing.config.data.labels).toEqual(Array.from({ length: 12 }, (_, i) => String(i + 1)));
    // The night dithers every third frame of the pilot: there the gain is nothing.
    expect(drawing.config.data.datasets[0]?.data[2]).toBe(0);
    expect(drawing.altText).toMatch(/1: −\d+\.\d h, 2: .*and 12: /);
  });

  it('says what is missing', () => {
    expect(missingOf(ditherCounts, namedNight('twin-night'))).toBe('the night was not replayed');
    expect(missingOf(ditherCounts, replayedNight('no-frames'))).toContain('at least two lights');
  });
});
