import { describe, expect, it } from 'vitest';
import { DEFAULT_RULES, wholeNightNotices, type FrameStars, type Train } from '../../../../src/model/index.js';
import { light } from '../../../support/events.js';
import { stars } from '../measured.js';

/** Ten frames of a train of 1.3″ per pixel. */
function notices(more: Partial<FrameStars>, frames = 10, optics: Partial<Train> = {}): string[] {
  const lights = Array.from({ length: frames }, (_, i) => ({ ...light('wren', '21:00:00', 300), id: `wren-${i}` }));
  return wholeNightNotices({
    gathered: { trains: [{ id: 'wren', role: 'companion', pixelScaleArcsec: 1.3, ...optics }], rules: DEFAULT_RULES },
    timeline: { frames: lights },
    stars: { frames: Object.fromEntries(lights.map(({ id }) => [id, stars({ fwhm: 2.4, ...more })])) },
  }).map(({ message }) => message);
}

// Limits: common practice, no source.
describe('a night that is bad as a whole', () => {
  it('gets a notice where the stars were wide, with their usual size', () => {
    expect(notices({})).toEqual([]);
    expect(notices({ fwhm: 3.2 })).toEqual([
      expect.stringContaining(
        'wren’s stars were wide (4.2″ or 3.2 px usual; above 4″ and 3 px counts as wide) all night',
      ),
    ]);
  });

  it('measures by the sensor’s pixels, however they were binned', () => {
    const binned = { focalLengthMm: 600, pixelSizeUm: 3.76, pixelScaleArcsec: 2.585 };
    expect(notices({ fwhm: 2.6 }, 10, binned)).toEqual([]);
    // 6.2″ are 2.4 px as stored, which no seeing could make smaller.
    expect(notices({ fwhm: 4.8 }, 10, binned)).toEqual([]);
    expect(notices({ fwhm: 6.4 }, 10, binned)[0]).toContain('8.3″ or 3.2 px');
  });

  it('gets one where they were trailed in one direction', () => {
    expect(notices({ elongation: 1.4, agreement: 0.3 })).toEqual([]);
    expect(notices({ elongation: 1.4, agreement: 0.9 })[0]).toContain('trailed (axis ratio 1.40 usual)');
  });

  it('gets none where too few frames or stars speak', () => {
    expect(notices({ fwhm: 6 }, 5)).toEqual([]);
    expect(notices({ fwhm: 6, count: 9 })).toEqual([]);
  });
});
