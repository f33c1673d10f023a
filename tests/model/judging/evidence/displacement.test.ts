import { describe, expect, it } from 'vitest';
import {
  displacementOf,
  driftElongation,
  type GuidingSeries,
  type InterruptionDrift,
} from '../../../../src/model/index.js';
import { light, at } from '../../../support/events.js';
import { activity } from '../around.js';

const { exposure } = light('wren', '21:00:00', 300);
/** FWHM 3 of the reference's checks, as sigma. */
const SIGMA = 3 / 2.3548;

function quiet(every = 2000, error: (atMs: number) => number = () => 0): GuidingSeries {
  const count = 600_000 / every;
  const atMs = Float64Array.from({ length: count }, (_, i) => at('20:55:00') + i * every);
  const jitter = (i: number): number => (i % 2 === 0 ? 0.1 : -0.1);
  return {
    atMs,
    raArcsec: atMs.map((t, i) => error(t) + jitter(i)),
    decArcsec: atMs.map((_, i) => jitter(i + 1)),
    snr: new Float64Array(count).fill(NaN),
    sources: [],
  };
}

const drift = (from: string, to: string, raArcsec: number, decArcsec = 0): InterruptionDrift => ({
  span: { startMs: at(from), endMs: at(to) },
  kind: 'guiding-rest',
  raArcsec,
  decArcsec,
  driftArcsec: Math.hypot(raArcsec, decArcsec),
});

const displaced = (more: Partial<Parameters<typeof displacementOf>[0]>) =>
  displacementOf({ exposure, motion: [], guidingOff: [], guiding: quiet(), drifts: [], sigmaArcsec: SIGMA, ...more });

const drawn = (more: Partial<Parameters<typeof displacementOf>[0]>): number | null => displaced(more)?.drawn ?? null;

describe('the elongation that a movement draws', () => {
  it('is that of the published sum of moments for a drift of the whole exposure (FWHM 3, drift 3: 0.173)', () => {
    const off = activity('guiding-rest', '20:59:59.999', '21:05:00.001');
    expect(
      drawn({ guidingOff: [off], drifts: [drift('20:59:59.999', '21:05:00.001', 3 * Math.cos(1), 3 * Math.sin(1))] }),
    ).toBeCloseTo(0.173, 3);
  });

  it('is that of a drift that reaches its distance in the last fraction: f·d²/3 − f²·d²/4', () => {
    const off = activity('guiding-rest', '21:04:00', '21:05:00');
    expect(drawn({ guidingOff: [off], drifts: [drift('21:04:00', '21:05:00', 6)] })).toBeCloseTo(
      driftElongation(6, 0.2, SIGMA),
      6,
    );
  });

  it('takes only the part inside the exposure', () => {
    const off = activity('guiding-rest', '21:04:30', '21:05:30');
    const whole = activity('guiding-rest', '21:04:30', '21:05:00');
    expect(drawn({ guidingOff: [off], drifts: [drift('21:04:30', '21:05:30', 6)] })).toBeCloseTo(
      drawn({ guidingOff: [whole], drifts: [drift('21:04:30', '21:05:00', 3)] }) ?? NaN,
      6,
    );
  });

  it('reads a jump from the excursion of the samples (FWHM 3, jump 3, f 0.1: 0.183)', () => {
    // At 21:04:30 the target leaps by 3″; the mount follows at once, but for one sample.
    const begin = at('21:04:29.999');
    const guiding = quiet(2000, (t) => (t >= begin && t < begin + 2000 ? -2.9 : 0));
    const motion = [
      activity('dither-move', '21:04:29.999', '21:04:30.001'),
      activity('settling', '21:04:30.001', '21:04:34'),
    ];
    const e = drawn({ guiding, motion });
    // Half of the four seconds of the move count as the other place.
    expect(e).toBeGreaterThan(0.165);
    expect(e).toBeLessThan(0.19);
  });

  it('is not taken from a move that no sample shows: it says what may hide in their jitter', () => {
    const motion = [activity('dither-move', '21:04:20', '21:04:30')];
    const hidden = displaced({ motion });
    expect(hidden).toMatchObject({ drawn: 0, isSeen: false });
    // Jitter of 0.1″ on each axis hides some tenths of an arcsecond at a ninth of the exposure.
    expect(hidden?.atMost).toBeGreaterThan(0);
    expect(hidden?.atMost).toBeLessThan(0.02);
    const seen = displaced({
      motion,
      guiding: quiet(2000, (t) => (t >= at('21:04:20') && t < at('21:04:26') ? 3 : 0)),
    });
    expect(seen?.isSeen).toBe(true);
    expect(seen?.atMost).toBeGreaterThan(seen?.drawn ?? Infinity);
  });

  it('is not known where samples do not cover it', () => {
    const motion = [activity('dither-move', '21:04:20', '21:04:30')];
    expect(displaced({ motion, guiding: quiet(60_000) })).toBeNull();
    expect(drawn({ guidingOff: [activity('star-gap', '21:01:00', '21:02:00')] })).toBeNull();
    const start = activity('guiding-start', '21:01:00', '21:02:00');
    expect(drawn({ guidingOff: [start] })).toBeNull();
  });

  it('comes back while the guiding settles, though the rest was over before the exposure', () => {
    const start = activity('guiding-start', '20:59:40', '21:00:20');
    const e = drawn({ guidingOff: [start], drifts: [drift('20:58:00', '20:59:40', 8)] });
    // Of 8″ half are left when the shutter opens: a ramp of 4″ over 20 of 300 s.
    expect(e).toBeCloseTo(driftElongation(4, 20 / 300, SIGMA), 6);
  });

  it('is nothing to ask for where nothing moved', () => {
    expect(drawn({})).toBeNull();
  });
});
