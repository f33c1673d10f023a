import { describe, expect, it } from 'vitest';
import {
  elongation,
  insideFrame,
  jumpVariance,
  partialDriftVariance,
  smearOf,
  steadyVariance,
} from '../../src/account/smear.js';
import { interruptionDrifts } from '../../src/account/guiding-drift.js';
import { interval, type GuidingSeries } from '../../src/model/index.js';
import { at, header, light } from '../support/events.js';
import { activity } from '../model/judging/around.js';
import { TRAINS } from './random-night.js';

/** σ² of a Gaussian of this FWHM: FWHM = 2.3548 σ. */
const sigma2 = (fwhm: number): number => (fwhm / 2.3548) ** 2;

describe('what a motion does to a star (second moments; check values computed for this project)', () => {
  it('elongates by e = 1 − 1/√(1 + Δ/σ²)', () => {
    expect(elongation(jumpVariance(3, 0.1), sigma2(3))).toBeCloseTo(0.183, 3);
    expect(elongation(steadyVariance(3), sigma2(3))).toBeCloseTo(0.173, 3);
    expect(elongation(steadyVariance(3), sigma2(2))).toBeCloseTo(0.3, 3);
    expect(elongation(jumpVariance(5, 0.02), sigma2(3))).toBeCloseTo(0.124, 3);
  });

  it('adds the variance that a rendered track has', () => {
    // The track itself, sampled: d·u over the last fraction f, 0 before.
    const d = 4;
    const f = 0.3;
    const n = 200_000;
    const track = Array.from({ length: n }, (_, i) => (i / n < 1 - f ? 0 : (d * (i / n - (1 - f))) / f));
    const mean = track.reduce((s, x) => s + x, 0) / n;
    const variance = track.reduce((s, x) => s + (x - mean) ** 2, 0) / n;
    expect(partialDriftVariance(0, d, f)).toBeCloseTo(variance, 3);
    // Over the whole exposure a partial drift is a uniform one, wherever it begins.
    expect(partialDriftVariance(0, d, 1)).toBeCloseTo(steadyVariance(d), 12);
    expect(partialDriftVariance(6, 6 + d, 1)).toBeCloseTo(steadyVariance(d), 12);
  });
});

/** Samples every 2 s over an hour from 21:00, errors by a function of seconds. */
function series(errors: (seconds: number) => [ra: number, dec: number] | null): GuidingSeries {
  const rows = Array.from({ length: 1800 }, (_, i) => ({ s: 2 * i, e: errors(2 * i) })).filter((r) => r.e !== null);
  return {
    atMs: Float64Array.from(rows, (r) => at('21:00:00') + r.s * 1000),
    raArcsec: Float64Array.from(rows, (r) => r.e![0]),
    decArcsec: Float64Array.from(rows, (r) => r.e![1]),
    snr: new Float64Array(rows.length).fill(NaN),
    sources: [],
  };
}

/** Jitter without a trend: alternating. */
const jitter = (s: number): number => ((s / 2) % 2 === 0 ? 0.3 : -0.3);

describe('the smear of a frame', () => {
  const frame = {
    ...light('wren', '21:10:00', 300),
    header: header('x.fits', '21:10:00', 300, { starSize: { pixels: 2, measure: 'half-flux' } }),
  };
  const train = TRAINS[1]!;

  it('is nothing under jitter alone', () => {
    expect(
      smearOf(
        frame,
        series((s) => [jitter(s), -jitter(s)]),
        [],
        train,
      ),
    ).toMatchObject({ steadyArcsec: 0, trailArcsec: 0, elongation: 0 });
  });

  it('is the steady drift, in arcseconds and in the train’s pixels', () => {
    const smear = smearOf(
      frame,
      series((s) => [0.01 * s + jitter(s), jitter(s)]),
      [],
      train,
    )!;
    expect(smear.steadyArcsec).toBeCloseTo(3, 1);
    expect(smear.trailArcsec).toBeCloseTo(smear.steadyArcsec, 10);
    expect(smear.trailPixels).toBeCloseTo(smear.trailArcsec / 1.3, 10);
  });

  it('takes in what happened while guiding was off', () => {
    const off = activity('guiding-rest', '21:11:00', '21:12:30', { causedBy: 'heron' });
    const from = 11 * 60;
    const to = 12.5 * 60;
    const samples = series((s) =>
      s >= from && s < to ? null : s >= to && s < to + 6 ? [5, 0] : [jitter(s), jitter(s)],
    );
    const drifts = interruptionDrifts(samples, [off]);
    expect(drifts).toHaveLength(1);
    expect(drifts[0]!.driftArcsec).toBeGreaterThan(4.5);
    const smear = smearOf(frame, samples, drifts, train)!;
    expect(smear.interruptionArcsec).toBe(drifts[0]!.driftArcsec);
    expect(smear.addedVarianceArcsec2).toBeCloseTo(partialDriftVariance(0, drifts[0]!.driftArcsec, 0.3), 10);
    expect(smear.elongation).toBeGreaterThan(0.05);
  });

  it('is not assessed without samples', () => {
    expect(
      smearOf(
        frame,
        series(() => null),
        [],
        train,
      ),
    ).toBeNull();
  });
});

describe('the drift of an interruption', () => {
  it('is not estimated when the samples come back too late', () => {
    const off = activity('star-gap', '21:11:00', '21:12:00');
    const samples = series((s) => (s >= 660 && s < 900 ? null : [0, 0]));
    expect(interruptionDrifts(samples, [{ ...off, span: interval(off.span.startMs, off.span.endMs) }])).toEqual([]);
  });
});

/** Variance of the star's place over an exposure, by adding up a million moments of it. */
function variance(place: (seconds: number) => number, fromSeconds: number, toSeconds: number): number {
  const n = 1_000_000;
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const x = place(fromSeconds + ((i + 0.5) * (toSeconds - fromSeconds)) / n);
    sum += x / n;
    squares += x ** 2 / n;
  }
  return squares - sum ** 2;
}

describe('a drift that the frame saw in part', () => {
  // A pause of 100 s from 21:08:30 on, in which the star drifts 10″; then the guiding pulls it back.
  const pause = { span: interval(at('21:08:30'), at('21:10:10')), driftArcsec: 10 };
  const place = (seconds: number): number => (seconds >= 0 && seconds < 100 ? seconds / 10 : 0);

  it.each([
    ['that closes ten seconds into the pause', '21:06:40', 120, -110],
    ['that opens ten seconds before its end', '21:10:00', 120, 90],
    ['that holds the whole pause', '21:08:00', 300, -30],
    ['that lies within the pause', '21:08:40', 60, 10],
    ['that touches it not at all', '21:20:00', 60, 690],
  ])('adds to a frame %s what the track itself has', (_what, begin, seconds, fromSeconds) => {
    const { fromArcsec, toArcsec, f } = insideFrame(pause, light('wren', begin, seconds));
    expect(partialDriftVariance(fromArcsec, toArcsec, f)).toBeCloseTo(
      variance(place, fromSeconds, fromSeconds + seconds),
      3,
    );
  });

  it('is charged with that part alone: 0.025 arcsec² in 125 s that close ten seconds into the pause, not 2.5', () => {
    const inside = insideFrame(pause, light('wren', '21:06:35', 125));
    expect(inside).toEqual({ fromArcsec: 0, toArcsec: 1, f: 0.08 });
    expect(partialDriftVariance(0, 1, 0.08)).toBeCloseTo(0.025, 3);
    expect(partialDriftVariance(0, 10, 0.08)).toBeCloseTo(2.507, 3);
  });

  it('is none where the guiding’s own noise explains it', () => {
    const noisy = series((s) => (s >= 600 && s < 640 ? null : [jitter(s), -jitter(s)]));
    const paused = activity('guiding-rest', '21:10:00', '21:10:40');
    expect(interruptionDrifts(noisy, [paused])).toMatchObject([{ isWithinNoise: true }]);
    const moved = series((s) => (s >= 600 && s < 640 ? null : [jitter(s) + (s >= 640 ? 6 : 0), -jitter(s)]));
    expect(interruptionDrifts(moved, [paused])).toMatchObject([{ isWithinNoise: false }]);
  });
});
