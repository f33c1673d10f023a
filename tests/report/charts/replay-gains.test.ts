import { describe, expect, it } from 'vitest';
import { isReplayed } from '../../../src/model/index.js';
import { replayGains } from '../../../src/report/charts/replay-gains.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { namedNight } from '../../support/nights.js';
import { replayedNight } from '../../support/replayed-night.js';

describe('the chart of gains by other rules', () => {
  const night = replayedNight('twin-night');
  const { replay } = night;
  if (!isReplayed(replay)) throw new Error('the night was not replayed');
  const shown = replay.whatIfs.filter((w) => w.group !== 'dither-every');

  it('has a bar in minutes for the best and for each what-if but the dither counts', () => {
    expect(Object.values(outline(drawn(replayGains, night)))).toEqual([shown.length + (replay.best ? 1 : 0)]);
    const bars = drawn(replayGains, night).config.data.datasets[0]?.data.map(Number) ?? [];
    expect(bars.at(-1)).toBeCloseTo((shown.at(-1)?.gain.meanMs ?? NaN) / 60_000, 9);
  });

  it('reaches as far as its whiskers', () => {
    const scale = drawn(replayGains, night).config.options?.scales?.x as {
      suggestedMin: number;
      suggestedMax: number;
    };
    expect(scale.suggestedMin * 60_000).toBeLessThanOrEqual(Math.min(0, ...shown.map((w) => w.gain.lowMs)));
    expect(scale.suggestedMax * 60_000).toBeGreaterThanOrEqual(Math.max(...shown.map((w) => w.gain.highMs)));
  });

  it('says what is missing', () => {
    expect(missingOf(replayGains, namedNight('twin-night'))).toBe('the night was not replayed');
    expect(missingOf(replayGains, replayedNight('no-frames'))).toContain('at least two lights');
  });
});
