import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { photonRate, skyElectrons } from '../../src/worth/photons.js';

const HERON = { apertureMm: 80, pixelScaleArcsec: 1.616, filterWidthNm: 300, wavelengthNm: 550, throughput: 0.5 };

describe('photons', () => {
  it('of magnitude 0 in V are about a thousand per second, square centimetre and ångström (M)', () => {
    const perSquareCentimetreAndAngstrom = photonRate(0, 550) / 1e4 / 10;
    expect(perSquareCentimetreAndAngstrom).toBeGreaterThan(990);
    expect(perSquareCentimetreAndAngstrom).toBeLessThan(1000);
  });

  it('fall by a hundred in five magnitudes', () => {
    expect(photonRate(20, 550) / photonRate(25, 550)).toBeCloseTo(100, 9);
  });
});

describe('sky in electrons', () => {
  it('is, for 80 mm at 1.616″ per pixel, 300 nm and a throughput of a half under 21.3 mag, 0.59 a second (C, by hand)', () => {
    // 9.964e7 photons m⁻² s⁻¹ nm⁻¹ · 10^(−8.52) · 5.0265e-3 m² · 300 nm · 2.6115 arcsec² · 0.5 = 0.5925.
    expect(skyElectrons(21.3, HERON)).toBeCloseTo(0.592, 2);
  });

  it('grows as the aperture and the pixel do, squared, and as width and throughput do', () => {
    const factor = fc.double({ min: 1.1, max: 4, noNaN: true });
    fc.assert(
      fc.property(factor, (by) => {
        const base = skyElectrons(21, HERON);
        expect(skyElectrons(21, { ...HERON, apertureMm: 80 * by }) / base).toBeCloseTo(by ** 2, 9);
        expect(skyElectrons(21, { ...HERON, pixelScaleArcsec: 1.616 * by }) / base).toBeCloseTo(by ** 2, 9);
        expect(skyElectrons(21, { ...HERON, filterWidthNm: 300 * by }) / base).toBeCloseTo(by, 9);
        expect(skyElectrons(21, { ...HERON, throughput: 0.5 / by }) / base).toBeCloseTo(1 / by, 9);
      }),
    );
  });
});
