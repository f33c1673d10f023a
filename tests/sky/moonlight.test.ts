import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { magArcsec2, moonBrightening, nanoLamberts } from '../../src/sky/index.js';
import type { MoonlitPlace } from '../../src/sky/index.js';

const degrees = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const place: fc.Arbitrary<MoonlitPlace> = fc.record({
  phaseAngleDeg: degrees(0, 150),
  separationDeg: degrees(1, 170),
  moonAltitudeDeg: degrees(0.1, 88),
  targetAltitudeDeg: degrees(5, 90),
  k: degrees(0.05, 0.4),
  darkSkyMagArcsec2: degrees(17, 22),
});

function brightening(at: MoonlitPlace): { deltaMag: number; moonNanoLamberts: number; darkNanoLamberts: number } {
  const result = moonBrightening(at);
  if (!result) throw new Error('no brightening above the horizon');
  return result;
}

describe('the brightening by the Moon', () => {
  test('is never a darkening, and is what the two brightnesses make of it', () => {
    fc.assert(
      fc.property(place, (at) => {
        const { deltaMag, moonNanoLamberts, darkNanoLamberts } = brightening(at);
        expect(deltaMag).toBeLessThan(0);
        expect(deltaMag).toBeCloseTo(magArcsec2(moonNanoLamberts + darkNanoLamberts) - magArcsec2(darkNanoLamberts), 3);
      }),
    );
  });

  test('grows with the altitude of the Moon', () => {
    fc.assert(
      fc.property(place, degrees(0.1, 2), (at, higher) => {
        expect(brightening({ ...at, moonAltitudeDeg: at.moonAltitudeDeg + higher }).deltaMag).toBeLessThan(
          brightening(at).deltaMag,
        );
      }),
    );
  });

  test('grows towards full Moon', () => {
    fc.assert(
      fc.property(place, degrees(0.1, 30), (at, older) => {
        expect(brightening({ ...at, phaseAngleDeg: at.phaseAngleDeg + older }).deltaMag).toBeGreaterThan(
          brightening(at).deltaMag,
        );
      }),
    );
  });

  test('is the same for a waxing and a waning Moon', () => {
    fc.assert(
      fc.property(place, (at) => {
        expect(brightening({ ...at, phaseAngleDeg: -at.phaseAngleDeg })).toEqual(brightening(at));
      }),
    );
  });

  test('costs more magnitudes where the sky is darker', () => {
    fc.assert(
      fc.property(place, (at) => {
        expect(brightening({ ...at, darkSkyMagArcsec2: at.darkSkyMagArcsec2 + 0.5 }).deltaMag).toBeLessThan(
          brightening(at).deltaMag,
        );
      }),
    );
  });

  test('costs nothing with the Moon on or below the horizon', () => {
    fc.assert(
      fc.property(place, degrees(-90, 0), (at, moonAltitudeDeg) => {
        const { deltaMag, moonNanoLamberts, darkNanoLamberts } = brightening({ ...at, moonAltitudeDeg });
        expect(deltaMag).toBe(0);
        expect(moonNanoLamberts).toBe(0);
        expect(darkNanoLamberts).toBeGreaterThan(0);
      }),
    );
  });

  test('is continuous in every angle but for the published step at 10°', () => {
    const step = 1e-4;
    fc.assert(
      fc.property(place, (at) => {
        fc.pre(Math.abs(at.separationDeg - 10) > 2 * step);
        for (const angle of ['phaseAngleDeg', 'separationDeg', 'moonAltitudeDeg', 'targetAltitudeDeg'] as const) {
          const change = brightening({ ...at, [angle]: at[angle] - step }).deltaMag - brightening(at).deltaMag;
          expect(Math.abs(change)).toBeLessThan(0.001);
        }
      }),
    );
  });

  test('steps at 10° as published: the dust term from 6.2e7/ρ² to 10^(6.15 − ρ/40)', () => {
    const at = { phaseAngleDeg: 30, moonAltitudeDeg: 60, targetAltitudeDeg: 60, k: 0.172, darkSkyMagArcsec2: 21.587 };
    const inside = brightening({ ...at, separationDeg: 10 - 1e-9 }).moonNanoLamberts;
    const outside = brightening({ ...at, separationDeg: 10 }).moonNanoLamberts;
    const molecules = 10 ** 5.36 * (1.06 + Math.cos(Math.PI / 18) ** 2);
    expect(outside / inside).toBeCloseTo((molecules + 10 ** 5.9) / (molecules + 6.2e5), 6);
  });

  test('stays finite on the very disc of the Moon', () => {
    fc.assert(
      fc.property(place, (at) => {
        const onDisc = brightening({ ...at, separationDeg: 0 });
        expect(onDisc).toEqual(brightening({ ...at, separationDeg: 0.25 }));
        expect(Number.isFinite(onDisc.deltaMag)).toBe(true);
      }),
    );
  });

  test('is not given for a target on or below the horizon', () => {
    fc.assert(
      fc.property(place, degrees(-90, 0), (at, targetAltitudeDeg) => {
        expect(moonBrightening({ ...at, targetAltitudeDeg })).toBeNull();
      }),
    );
    expect(
      moonBrightening({
        phaseAngleDeg: 0,
        separationDeg: 60,
        moonAltitudeDeg: 30,
        targetAltitudeDeg: NaN,
        k: 0.2,
        darkSkyMagArcsec2: 21,
      }),
    ).toBeNull();
  });

  test('is nothing without air to scatter the light', () => {
    fc.assert(
      fc.property(place, (at) => {
        expect(brightening({ ...at, k: 0 }).deltaMag).toBe(0);
      }),
    );
  });
});

test('nanolamberts and magnitudes undo each other', () => {
  fc.assert(
    fc.property(degrees(10, 23), (mag) => {
      expect(magArcsec2(nanoLamberts(mag))).toBeCloseTo(mag, 10);
    }),
  );
});
