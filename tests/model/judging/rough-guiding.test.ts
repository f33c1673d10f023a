import { describe, expect, it } from 'vitest';
import { roughGuiding } from '../../../src/model/judging/rough-guiding.js';
import { light } from '../../support/events.js';
import { around, causesBy } from './around.js';
import { stars, usual } from './measured.js';

const guiding = (totalRmsArcsec: number) => ({
  samples: 100,
  raRmsArcsec: 1,
  decRmsArcsec: 1,
  totalRmsArcsec,
  peakArcsec: 3,
});

describe('rough guiding', () => {
  it('makes a frame doubtful above the train’s own pixel scale', () => {
    // wren has 1.3″ per pixel here.
    expect(causesBy(roughGuiding, light('wren', '21:00:00', 300), around({ guiding: guiding(1.31) }))).toMatchObject([
      { verdict: 'doubtful' },
    ]);
    expect(causesBy(roughGuiding, light('wren', '21:00:00', 300), around({ guiding: guiding(1.3) }))).toEqual([]);
  });
  it('goes by the RMS about the mean: a steady offset leaves stars round, and is shown', () => {
    const offset = (jitterRmsArcsec: number) => ({ ...guiding(3), jitterRmsArcsec, offsetArcsec: 2.9 });
    expect(causesBy(roughGuiding, light('wren', '21:00:00', 300), around({ guiding: offset(0.8) }))).toEqual([]);
    const [cause] = causesBy(roughGuiding, light('wren', '21:00:00', 300), around({ guiding: offset(1.4) }));
    expect(cause?.evidence).toMatch(/^guiding RMS 1\.40″ over 100 samples about a mean 2\.90″ off, above the limit/);
  });
  it('loses a frame that strayed farther than its stars are wide and lacks light: round are those of the rest', () => {
    // A cable that holds the mount for a while draws each star long and faint, and leaves a round one at either end.
    const of = (rms: number, flux: number | null) => {
      const seen = { stars: stars({ flux }), usual: usual(), guiding: guiding(rms) };
      return causesBy(roughGuiding, light('wren', '21:00:00', 300), around(seen));
    };
    expect(of(40, 0.45)).toMatchObject([{ verdict: 'lost' }]);
    expect(of(40, 0.45)[0]?.evidence).toContain('the light missing from the stars lies where the guiding strayed');
    // All of the light is there: a sample or two were wrong. Light is missing and the mount kept still: a cloud.
    expect(of(40, 0.98)).toEqual([]);
    expect(of(2, 0.45)).toEqual([]);
  });
  it('is not assessed without samples or pixel scale', () => {
    expect(causesBy(roughGuiding, light('wren', '21:00:00', 300), around())).toEqual([]);
    expect(
      causesBy(
        roughGuiding,
        light('owl', '21:00:00', 300),
        around({ guiding: guiding(9), train: { id: 'owl', role: 'companion' } }),
      ),
    ).toEqual([]);
  });
});
