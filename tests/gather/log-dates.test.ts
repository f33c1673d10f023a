import { describe, expect, it } from 'vitest';
import { eventsNearFrames, samplesNearFrames } from '../../src/gather/log-dates.js';
import { at, event } from '../support/events.js';

describe('log times far from every frame', () => {
  const good = [event('21:00:00', 'exposure-begin'), event('21:05:00', 'exposure-end')];
  const epoch = good.map((e, i) => ({ ...e, atMs: i * 300_000 }));

  it('are left out and said, once per log', () => {
    const { events, warnings } = eventsNearFrames([...good, ...epoch], [at('21:00:00')]);
    expect(events).toEqual(good);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]?.message).toMatch(
      /^2 of 4 events .* more than two days from every frame \(the first on 1970-01-01\)/,
    );
  });

  it('may be a day before or after', () => {
    const early = good.map((e) => ({ ...e, atMs: e.atMs - 40 * 3_600_000 }));
    expect(eventsNearFrames(early, [at('21:00:00')]).warnings).toEqual([]);
  });

  it('cannot be determined without frames', () => {
    expect(eventsNearFrames(epoch, []).events).toEqual(epoch);
  });
});

describe('guiding samples far from every frame', () => {
  const good = [at('21:00:00'), at('21:00:02')];
  const series = (atMs: readonly number[]) => ({
    atMs: Float64Array.from(atMs),
    raArcsec: Float64Array.from(atMs, (_, i) => i),
    decArcsec: Float64Array.from(atMs, () => 0),
    snr: Float64Array.from(atMs, () => NaN),
    sources: [{ file: 'guiding.csv' }],
  });

  it('are left out in every column, and said', () => {
    const { series: kept, warnings } = samplesNearFrames(series([1000, 2000, ...good]), [at('21:00:00')]);
    expect([...(kept?.atMs ?? [])]).toEqual(good);
    expect([...(kept?.raArcsec ?? [])]).toEqual([2, 3]);
    expect(warnings[0]?.message).toMatch(/^2 of 4 guiding samples in guiding\.csv .*\(the first on 1970-01-01\)/);
  });

  it('leave no series where all are', () => {
    expect(samplesNearFrames(series([1000]), [at('21:00:00')]).series).toBeNull();
    expect(samplesNearFrames(series(good), [at('21:00:00')])).toEqual({ series: series(good), warnings: [] });
  });
});
