import { describe, expect, it } from 'vitest';
import { guiding } from '../../../src/report/charts/guiding.js';
import { namedNight } from '../../support/nights.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { altered } from '../../support/altered.js';

describe('the guiding chart', () => {
  it('has one stroke a frame, and each train’s limit', () => {
    const night = namedNight('twin-night');
    const sets = outline(drawn(guiding, night));
    expect(sets['limit of heron']).toBe(2);
    expect(sets['limit of wren']).toBe(2);
    // Begin, end and a gap for each exposure.
    expect(sets.heron).toBe(
      3 * night.accounts.lights.filter((frame) => frame.train === 'heron' && frame.guiding !== null).length,
    );
  });

  it('leaves a limit out that lies far above everything', () => {
    const night = namedNight('three-trains');
    const trains = night.gathered.trains.map((train) =>
      train.id === 'stilt' ? { ...train, pixelScaleArcsec: 40 } : train,
    );
    const coarse = altered(night, { gathered: { trains } });
    expect(Object.keys(outline(drawn(guiding, night)))).toContain('limit of stilt');
    expect(Object.keys(outline(drawn(guiding, coarse)))).not.toContain('limit of stilt');
  });

  it('counts the frames above the limit', () => {
    const night = namedNight('twin-night');
    const above = night.accounts.lights.filter(
      (frame) => frame.train === 'wren' && (frame.guiding?.totalRmsArcsec ?? 0) > 1.293,
    ).length;
    expect(drawn(guiding, night).table?.rows[1]?.at(-1)).toBe(String(above));
  });

  it('draws a train whose pixel scale is not known, without a limit', () => {
    const night = namedNight('twin-night');
    const sets = outline(
      drawn(
        guiding,
        altered(night, {
          gathered: { trains: night.gathered.trains.map(({ pixelScaleArcsec: _scale, ...train }) => train) },
        }),
      ),
    );
    expect(Object.keys(sets)).toEqual(['wren', 'heron']);
  });

  it('needs samples', () => {
    expect(missingOf(guiding, namedNight('no-guiding'))).toBe('there are no guiding samples');
    const night = namedNight('twin-night');
    expect(
      missingOf(
        guiding,
        altered(night, { accounts: { lights: night.accounts.lights.map((frame) => ({ ...frame, guiding: null })) } }),
      ),
    ).toBe('no guiding sample falls within an exposure');
  });
});
