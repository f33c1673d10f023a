import { describe, expect, it } from 'vitest';
import { interval, type Cause, type JudgedFrame, type SubLength } from '../../src/model/index.js';
import { extraNoise } from '../../src/worth/noise.js';
import { light, NIGHT_MS, NOISE_CONFIG, trainConfig, weigh } from './support.js';

const TRAIN = { id: 'heron', role: 'pilot', apertureMm: 80, pixelScaleArcsec: 1.616 } as const;
const PAUSE_MS = 4000;

const LOST_TO_GUIDING: Cause = {
  kind: 'guiding-off',
  by: 'duration',
  verdict: 'lost',
  span: interval(NIGHT_MS, NIGHT_MS + 60_000),
  overlapMs: 60_000,
  evidence: 'guiding off for 60 s',
  certainty: 'measured',
  sources: [],
};

/** Subs of one filter, one after another, of which the first so many were lost to the guiding. */
function subs(filter: string, seconds: number, count: number, lost = 0): JudgedFrame[] {
  return Array.from({ length: count }, (_none, i) => {
    const frame = light({ filter, seconds, startMs: NIGHT_MS + i * (seconds * 1000 + PAUSE_MS) });
    return i < lost ? { ...frame, verdict: 'lost', causes: [LOST_TO_GUIDING] } : frame;
  });
}

function subOf(frames: readonly JudgedFrame[], config = NOISE_CONFIG): SubLength | null | undefined {
  const filter = frames[0]?.filter ?? '';
  const nothing = { taken: 0, kept: 0, doubtful: 0, lost: 0 };
  const totals = [{ target: 'NGC 281', filter, train: 'heron', frames: nothing, ms: nothing }];
  return weigh({
    elevationM: 1100,
    trains: [TRAIN],
    cameras: [config],
    frames,
    totals,
    calibration: [],
    curves: [],
  }).totals[0]?.worth?.sub;
}

describe('the length of the subs', () => {
  it('is assessed with sky, dark current, read noise and pause', () => {
    const sub = subOf(subs('L', 120, 10));
    expect(sub).toMatchObject({
      seconds: 120,
      readNoiseElectrons: 1.5,
      darkElectronsPerSecond: 0.001,
      pauseSeconds: 4,
      lostFrames: 0,
    });
    expect(sub?.extraNoise).toBe(extraNoise((sub?.skyElectronsPerSecond ?? NaN) + 0.001, 1.5, 120));
  });

  it('has lost frames by the logs and by trailed stars alike', () => {
    const trailed: Cause = { ...LOST_TO_GUIDING, kind: 'trailed', by: 'pixels' };
    const swollen: Cause = { ...LOST_TO_GUIDING, kind: 'swollen', by: 'pixels' };
    const frames = subs('L', 120, 10, 3).map((frame, i) =>
      frame.verdict === 'lost' ? { ...frame, causes: [[trailed, swollen][i] ?? LOST_TO_GUIDING] } : frame,
    );
    expect(subOf(frames)?.lostFrames).toBe(2);
  });

  it('is too short where read noise is felt: longer subs would have been worth more', () => {
    const sub = subOf(subs('Ha', 60, 60));
    expect(sub?.extraNoise).toBeGreaterThan(0.5);
    expect(sub?.best.seconds).toBeGreaterThan(60);
    expect(sub?.best.winMs).toBeGreaterThan(5 * 60_000);
  });

  it('is not asked to grow beyond a quarter of an hour', () => {
    expect(subOf(subs('Ha', 600, 12))?.best.seconds).toBe(600);
  });

  it('is needlessly long where read noise is drowned and frames are lost', () => {
    const sub = subOf(subs('L', 300, 40, 6));
    expect(sub?.lostFrames).toBe(6);
    expect(sub?.best.seconds).toBeLessThan(300);
    expect(sub?.best.winMs).toBeGreaterThan(10 * 60_000);
    expect(sub?.best.extraNoise).toBeLessThanOrEqual(sub?.tolerated ?? NaN);
  });

  it('is left alone where read noise is drowned and nothing is lost: shorter subs would only add pauses', () => {
    expect(subOf(subs('L', 120, 40))?.best).toMatchObject({ seconds: 120, winMs: 0 });
  });

  it('does not count frames that clouds cut short', () => {
    const frames = subs('L', 300, 10);
    const cut = frames.map(
      (f, i): JudgedFrame =>
        i === 0 ? { ...f, verdict: 'lost', causes: [{ ...LOST_TO_GUIDING, kind: 'cut-short' }] } : f,
    );
    expect(subOf(cut)?.lostFrames).toBe(0);
  });

  it('is not assessed without read noise, or without the sky in electrons', () => {
    expect(subOf(subs('L', 120, 10), trainConfig({ filterWidthsNm: { L: 300 } }))).toBeNull();
    expect(subOf(subs('L', 120, 10), trainConfig({ readNoiseElectrons: 1.5 }))).toBeNull();
  });
});
