/**
 * Twilight sky brightness. Sources beside the values: (R) read in a stored source, (M) from memory.
 */
import { describe, expect, it } from 'vitest';
import { airmass, magArcsec2, moonBrightening, twilightNanoLamberts } from '../../src/sky/index.js';

describe('the twilight sky', () => {
  it.each([
    // Patat, Ugolnikov & Postylyakov 2006, V at the zenith, by their fit (M): 11.84 at 95°, 13.99 at 96.5°, 19.67 at 102°.
    [-5, 11.84],
    [-6.5, 13.99],
    [-12, 19.85],
  ])('with the Sun at %f° has %f mag per square arcsecond', (sunAltitude, mag) => {
    expect(magArcsec2(twilightNanoLamberts(sunAltitude))).toBeCloseTo(mag, 1);
  });

  it('dims by a factor of about two in 2.9 minutes', () => {
    // Isaac Newton Group, "Twilight sky brightness" (R): log10 B = A − 0.103·T, T in minutes, 10 < T < 35 after sunset.
    // The Sun sinks 0.22° a minute at their latitude in spring and autumn (C).
    const perMinute = Math.log10(twilightNanoLamberts(-4) / twilightNanoLamberts(-8)) / (4 / 0.22);
    expect(perMinute).toBeGreaterThan(0.08);
    expect(perMinute).toBeLessThan(0.14);
  });

  it('ends without a step, and never brightens as the Sun sinks', () => {
    expect(twilightNanoLamberts(-18)).toBe(0);
    for (let h = 0; h > -18; h -= 0.1)
      expect(twilightNanoLamberts(h - 0.1)).toBeLessThanOrEqual(twilightNanoLamberts(h));
    // Less than a thirtieth of the dark sky of 79 nL where it is cut off.
    expect(twilightNanoLamberts(-15.999)).toBeLessThan(3);
  });
});

describe('a low Moon', () => {
  const place = { phaseAngleDeg: 30, separationDeg: 60, targetAltitudeDeg: 60, k: 0.172, darkSkyMagArcsec2: 21.587 };

  it('rises without a step', () => {
    const below = moonBrightening({ ...place, moonAltitudeDeg: 0 })?.deltaMag ?? NaN;
    const above = moonBrightening({ ...place, moonAltitudeDeg: 0.01 })?.deltaMag ?? NaN;
    // The published form, whose air mass is capped at 5, jumps by more than a magnitude there.
    expect(Math.abs(above - below)).toBeLessThan(0.03);
    const capped = moonBrightening({ ...place, moonAltitudeDeg: 0.01 }, 'published')?.deltaMag ?? NaN;
    expect(Math.abs(capped - below)).toBeGreaterThan(1);
  });

  it('is dimmed along the path of Kasten & Young 1989', () => {
    // X(5°) = 10.3058 (C); the published form has 1/√(1 − 0.96·sin²85°) = 4.594 (C).
    expect(airmass(5)).toBeCloseTo(10.3058, 3);
    const [ours, published] = ['path', 'published'].map(
      (form) =>
        moonBrightening({ ...place, moonAltitudeDeg: 5 }, form as 'path' | 'published')?.moonNanoLamberts ?? NaN,
    );
    expect(Math.log10((published ?? NaN) / (ours ?? NaN)) / (0.4 * 0.172)).toBeCloseTo(10.3058 - 4.594, 1);
  });
});
