import { describe, expect, it } from 'vitest';
import { moonNear } from '../../src/findings/moon-near.js';
import { ask, curve, found, HOUR, lights, nightOf, place } from './support.js';
import type { FrameWorth, WorthAssessment } from '../../src/model/index.js';

const night = (filter: string, separation: number, more: { illumination?: number; moonAltitude?: number } = {}) =>
  nightOf({
    frames: lights('heron', { from: 0, seconds: 300, count: 6, filter }),
    curves: [curve('NGC 281', 0, HOUR, () => 50)],
    skyOf: (f) =>
      place(f.exposure.startMs, 50, {
        moonSeparationDeg: separation,
        moonAltitudeDeg: more.moonAltitude ?? 30,
        moonIllumination: more.illumination ?? 1,
      }),
  });

describe('a Moon too near for the filter', () => {
  it('is found for broad bands at distances that narrow ones bear', () => {
    expect(found(moonNear, night('L', 60))[0]).toMatchObject({
      title: 'heron imaged L too near the Moon',
      frames: 6,
      costMs: 0,
    });
    expect(found(moonNear, night('Ha', 60))).toEqual([]);
    expect(found(moonNear, night('OIII', 55))).toHaveLength(1);
  });

  it('asks less of the distance from a smaller Moon', () => {
    // A quarter lit: half the distance is enough.
    expect(found(moonNear, night('L', 46, { illumination: 0.26 }))).toEqual([]);
    expect(found(moonNear, night('L', 44, { illumination: 0.26 }))).toHaveLength(1);
  });

  it('is not found with the Moon below the horizon, or a thin crescent', () => {
    expect(found(moonNear, night('L', 20, { moonAltitude: -5 }))).toEqual([]);
    expect(found(moonNear, night('L', 20, { illumination: 0.1 }))).toEqual([]);
  });

  it('costs what moonlight took of the weighed frames, and says that it is part of the Moon’s cost', () => {
    const weighed = night('L', 40);
    const shares = { share: 0.3, moonlessShare: 0.75 } as FrameWorth;
    const frames = Object.fromEntries(weighed.accounts.lights.map((f) => [f.id, shares]));
    const [finding] = found(moonNear, {
      ...weighed,
      worth: { frames, totals: {}, orders: [] } as unknown as WorthAssessment,
    });
    expect(finding?.costMs).toBe(Math.round(6 * 300_000 * (1 - 0.3 / 0.75)));
    expect(finding?.evidence.join()).toContain('part of what the Moon took');
    expect(finding?.minutes).toBeUndefined();
  });

  it('does not send to Ha where Ha is too near', () => {
    expect(found(moonNear, night('Ha', 20))[0]?.advice).toContain('image a target on the other side');
    expect(found(moonNear, night('L', 20))[0]?.advice).toContain('take Ha or SII here');
  });

  it('is not assessed where the target’s place is unknown', () => {
    expect(ask(moonNear, nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) }))).toEqual({
      notAssessed: 'the site and the targets’ places',
    });
  });
});
