import { describe, expect, it } from 'vitest';
import { roughGuiding } from '../../../src/model/judging/rough-guiding.js';
import { light } from '../../support/events.js';
import { around, causesBy } from './around.js';

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
