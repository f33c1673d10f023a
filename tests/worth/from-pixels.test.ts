import { describe, expect, it } from 'vitest';
import { lightKey } from '../../src/worth/light.js';
import { withPixels } from '../../src/worth/from-pixels.js';
import { starryNight } from '../support/starry-night.js';

describe('levels and fluxes from the pixels', () => {
  it('take the place of the headers’', () => {
    const night = starryNight('twin-night', (index) => ({ background: 400 + index, flux: index === 2 ? 0.4 : 1 }));
    const { lights, level, flux } = withPixels(night.accounts.lights, night.stars);
    expect(level).toEqual(new Set(night.accounts.lights.map(lightKey)));
    expect(flux).toEqual(level);
    const withFile = lights.flatMap((frame, index) => (frame.header ? [{ frame, index }] : []));
    expect(withFile.length).toBeGreaterThan(100);
    for (const { frame, index } of withFile) {
      const seconds = frame.header?.exposureSeconds ?? (frame.exposure.endMs - frame.exposure.startMs) / 1000;
      expect(frame.header?.backgroundAdu).toBe(400 + index);
      expect((frame.header?.starFluxAdu ?? NaN) / seconds).toBeCloseTo(index === 2 ? 0.4 : 1, 12);
    }
  });

  it('leave the headers alone where too few frames were measured, or none', () => {
    const few = starryNight('twin-night', (index) => (index < 3 ? {} : undefined));
    expect(withPixels(few.accounts.lights, few.stars).lights).toEqual(few.accounts.lights);
    expect(withPixels(few.accounts.lights, null).lights).toBe(few.accounts.lights);
  });
});
