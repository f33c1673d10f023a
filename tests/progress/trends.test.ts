import { describe, expect, it } from 'vitest';
import { NO_BOOK } from '../../src/config/index.js';
import type { FrameStars, Night } from '../../src/model/index.js';
import { progressOf } from '../../src/progress/index.js';
import { summarise } from '../../src/record/archive/summary.js';
import { toRecord } from '../../src/record/index.js';
import { TRENDS } from '../../src/report/progress/charts/trends.js';
import { CLEAR_STARS, starryNight } from '../support/starry-night.js';
import { hoursOf, summaryOf } from '../support/records.js';

const starSize = TRENDS.find(({ id }) => id === 'star-size');

/** As the archive has it. */
const summaryFrom = (night: Night) =>
  summarise({ file: 'a.json', record: toRecord(night, '0.0.0') } as Parameters<typeof summarise>[0]);

function shown(...nights: ReturnType<typeof summaryOf>[]) {
  const progress = progressOf(nights, NO_BOOK, () => 'here');
  const axis = starSize?.axis;
  return {
    axis: typeof axis === 'function' ? axis(progress) : axis,
    series: starSize?.series(progress) ?? [],
  };
}

describe('the trend of star size', () => {
  it('is in arcseconds where the scale is known, by each train’s own scale', () => {
    const night = starryNight('twin-night', (): Partial<FrameStars> => ({ ...CLEAR_STARS, fwhm: 2.5 }));
    const { axis, series } = shown(summaryFrom(night));
    expect(axis).toBe('FWHM, median per night, ″');
    // 206.265″ × 3.76 µm / 480 mm and 600 mm, times 2.5 px, by hand.
    expect(series.map(({ train, values }) => [train, values.map(({ value }) => value.toFixed(2))])).toEqual([
      ['heron', ['4.04']],
      ['wren', ['3.23']],
    ]);
  });

  it('is in pixels where no record states a scale', () => {
    const base = summaryOf('2026-10-01', [hoursOf('NGC 281', 'Ha', 'heron', 1)]);
    const { axis, series } = shown({ ...base, trains: base.trains.map((train) => ({ ...train, starSize: 2.2 })) });
    expect(axis).toMatch(/px$/);
    expect(series[0]?.values.map(({ value }) => value)).toEqual([2.2]);
  });
});
