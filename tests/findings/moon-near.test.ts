import { describe, expect, it } from 'vitest';
import { moonNear } from '../../src/findings/moon-near.js';
import { ask, curve, found, HOUR, lights, nightOf, place, span } from './support.js';
import type { FrameWorth, NightSky, WorthAssessment } from '../../src/model/index.js';

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
      title: 'heron imaged L of NGC 281 too near the Moon',
      frames: 6,
      costMs: 0,
    });
    expect(found(moonNear, night('Ha', 60))).toEqual([]);
    expect(found(moonNear, night('OIII', 55))).toHaveLength(1);
  });

  it('takes a filter that bears a number for what the rig file states of it', () => {
    const numbered = night('3', 60);
    const cameras = [{ id: 'heron', filterWidthsNm: { '3': 5 }, filterWavelengthsNm: { '3': 656 } }];
    expect(found(moonNear, numbered)).toHaveLength(1);
    expect(found(moonNear, { ...numbered, gathered: { ...numbered.gathered, cameras } })).toEqual([]);
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

  it('leaves the cost to the Moon’s own finding, where it stands once, and promises nothing without a better target', () => {
    const weighed = night('L', 40);
    const shares = { share: 0.3, moonlessShare: 0.75 } as FrameWorth;
    const frames = Object.fromEntries(weighed.accounts.lights.map((f) => [f.id, shares]));
    const [finding] = found(moonNear, {
      ...weighed,
      worth: { frames, totals: {}, orders: [], moonlight: [] } as unknown as WorthAssessment,
    });
    expect(finding).toMatchObject({ costMs: 0, winMs: 0 });
    // Six frames of 5 min, of which moonlight took 60 %.
    expect(finding?.evidence.join()).toContain(
      'the Moon cost 18 min of these frames, which is part of what moonlight cost',
    );
    expect(finding?.minutes).toBeUndefined();
  });

  it('wins what another target that was up would have saved by the same model', () => {
    const near = night('L', 40);
    // Moonlight as bright as the rest of the noise here; a quarter as bright there.
    const here = { share: 0.4, moonlessShare: 0.8, moonBrighteningMag: 2.5 * Math.log10(2) } as FrameWorth;
    const there = 2.5 * Math.log10(1.25);
    const frames = Object.fromEntries(near.accounts.lights.map((f) => [f.id, here]));
    const other = curve('M 33', 0, HOUR, () => 60);
    const weighed = (brighteningMag: number, curves: NightSky['curves'] = [...near.sky.curves, other]) => ({
      ...near,
      sky: { ...near.sky, curves },
      worth: {
        frames,
        totals: {},
        orders: [],
        moonlight: [{ target: 'M 33', points: other.points.map((p) => ({ atMs: p.atMs, brighteningMag })) }],
      } as unknown as WorthAssessment,
    });
    const [finding] = found(moonNear, weighed(there));
    // Lost here 1/2; there 0.25 ÷ (0.25 + 1) = 1/5. Six frames of 5 min.
    expect(finding?.winMs).toBe(Math.round(6 * 300_000 * (0.5 - 0.2)));
    expect(finding?.advice).toContain('image M 33, and keep NGC 281 for another night');
    expect(found(moonNear, weighed(2.5 * Math.log10(2)))[0]?.winMs).toBe(0);
    expect(found(moonNear, weighed(there, near.sky.curves))[0]?.winMs).toBe(0);
  });

  it.each([
    [2.5, 3, 'and come back to NGC 281 when it is down (30 min).'],
    [-1, 0, 'and take NGC 281 before it rises (1.0 h).'],
    [-1, 0.3, 'and take NGC 281 before it rises (1.'],
    [5, 6, 'and keep NGC 281 for another night: on this one the Moon was up whenever it was above its limit'],
  ])(
    'sends back to the target only where the Moon was down while it was up and dark: %s h to %s h',
    (from, to, words) => {
      const near = night('L', 40);
      const here = { share: 0.4, moonlessShare: 0.8, moonBrighteningMag: 1 } as FrameWorth;
      const other = curve('M 33', 0, HOUR, () => 60);
      const path = curve('NGC 281', -HOUR, 3 * HOUR, () => 50);
      const isDown = (atMs: number): boolean => {
        const hours = (atMs - (near.accounts.lights[0]?.exposure.startMs ?? 0)) / 3_600_000;
        return hours >= from && hours <= to;
      };
      const [finding] = found(moonNear, {
        ...near,
        // The hours without the Moon went to another target of the same train.
        timeline: {
          ...near.timeline,
          activities: [
            { kind: 'hold' as const, certainty: 'measured' as const, span: span(-HOUR, 0), sources: [] },
            { kind: 'hold' as const, certainty: 'measured' as const, span: span(HOUR, 4 * HOUR), sources: [] },
          ],
        },
        sky: { ...near.sky, window: span(-2 * HOUR, 4 * HOUR), curves: [path, other] },
        worth: {
          frames: Object.fromEntries(near.accounts.lights.map((f) => [f.id, here])),
          totals: {},
          orders: [],
          moonlight: [
            {
              target: 'NGC 281',
              points: path.points.map(({ atMs }) => ({ atMs, brighteningMag: isDown(atMs) ? 0 : 1 })),
            },
            { target: 'M 33', points: other.points.map(({ atMs }) => ({ atMs, brighteningMag: 0.1 })) },
          ],
        } as unknown as WorthAssessment,
      });
      expect(finding?.advice).toContain(words);
    },
  );

  it('names the hours after moonset where they were dark, free and the target was up', () => {
    const near = night('L', 40);
    const here = { share: 0.4, moonlessShare: 0.8, moonBrighteningMag: 1 } as FrameWorth;
    const path = curve('NGC 281', 0, 3 * HOUR, () => 50);
    // The Moon sets an hour and a half after the first frame; the frames end after half an hour.
    const points = path.points.map((p, i) => ({ atMs: p.atMs, brighteningMag: i < 18 ? 1 : 0 }));
    const weighed = (window: NightSky['window']) => ({
      ...near,
      sky: { ...near.sky, window, curves: [path] },
      worth: {
        frames: Object.fromEntries(near.accounts.lights.map((f) => [f.id, here])),
        totals: {},
        orders: [],
        moonlight: [{ target: 'NGC 281', points }],
      } as unknown as WorthAssessment,
    });
    const [finding] = found(moonNear, weighed(span(0, 3 * HOUR)));
    // Half of six frames of 5 min.
    expect(finding?.winMs).toBe(900_000);
    expect(finding?.advice).toMatch(
      /^Image L of NGC 281 after moonset, from 22:30: 1\.5 h of such darkness went unused/,
    );
    // Dawn comes first.
    expect(found(moonNear, weighed(span(0, HOUR)))[0]?.winMs).toBe(0);
  });

  it('speaks of deep red lines only to one who has them', () => {
    expect(found(moonNear, night('L', 20))[0]?.advice).not.toContain('Ha');
    const both = nightOf({
      frames: ['L', 'Ha'].flatMap((filter, i) => lights('heron', { from: i * 2000, seconds: 300, count: 6, filter })),
      curves: [curve('NGC 281', 0, 2 * HOUR, () => 50)],
      skyOf: (f) => place(f.exposure.startMs, 50, { moonSeparationDeg: 60, moonAltitudeDeg: 30, moonIllumination: 1 }),
    });
    expect(found(moonNear, both)[0]?.advice).toContain('Ha tolerates it better');
  });

  it('is not assessed where the target’s place is unknown', () => {
    expect(ask(moonNear, nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) }))).toEqual({
      notAssessed: 'the site and the targets’ coordinates',
    });
  });
});
