import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FrameWorth, JudgedFrame } from '../../src/model/index.js';
import { light, NOISE_CONFIG, SKY, skyAt, trainConfig, UNDER_MOON, weigh, type WeighInput } from './support.js';

const TRAIN = { id: 'heron', role: 'pilot', apertureMm: 80, pixelScaleArcsec: 1.616 } as const;

function input(frames: readonly JudgedFrame[], more: Partial<WeighInput> = {}): WeighInput {
  return {
    elevationM: 1100,
    trains: [TRAIN],
    cameras: [NOISE_CONFIG],
    frames,
    totals: [],
    calibration: [],
    curves: [],
    ...more,
  };
}

function worthOf(frame: JudgedFrame, more: Partial<WeighInput> = {}): FrameWorth {
  const worth = weigh(input([frame], more)).frames[0]?.worth;
  if (!worth) throw new Error('the frame has no worth');
  return worth;
}

const degrees = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const altitude = degrees(10, 90);
const filter = fc.constantFrom('L', 'R', 'G', 'B', 'Ha', 'OIII', 'SII');
const moonlit = fc.record({
  moonAltitudeDeg: degrees(1, 85),
  moonSeparationDeg: degrees(11, 150),
  moonPhaseAngleDeg: degrees(0, 120),
});
const config = fc.constantFrom(NOISE_CONFIG, trainConfig());

describe('the worth of a frame', () => {
  it('is its exposure at the zenith of a clear dark sky', () => {
    const worth = worthOf(light());
    expect(worth.share).toBeCloseTo(1, 12);
    expect(worth.effectiveMs).toBeCloseTo(300_000, 6);
    expect(worth).toMatchObject({
      transparency: 1,
      moonBrighteningMag: 0,
      transparencyFrom: 'modelled',
      skyFrom: 'modelled',
      noise: 'read-noise',
    });
  });

  it('is never more than that where the dark zenith is the reference', () => {
    fc.assert(
      fc.property(altitude, filter, moonlit, config, (altitudeDeg, name, moon, camera) => {
        const worth = worthOf(light({ filter: name, sky: skyAt(altitudeDeg, moon) }), { cameras: [camera] });
        expect(worth.share).toBeLessThanOrEqual(1);
        expect(worth.share).toBeGreaterThan(0);
      }),
    );
  });

  it('falls as the Moon rises higher, and as it grows fuller', () => {
    fc.assert(
      fc.property(altitude, filter, moonlit, config, degrees(0.5, 4), (altitudeDeg, name, moon, camera, more) => {
        const share = (place: typeof moon) =>
          worthOf(light({ filter: name, sky: skyAt(altitudeDeg, place) }), { cameras: [camera] }).share;
        expect(share({ ...moon, moonAltitudeDeg: moon.moonAltitudeDeg + more })).toBeLessThan(share(moon));
        expect(share({ ...moon, moonPhaseAngleDeg: moon.moonPhaseAngleDeg + more })).toBeGreaterThan(share(moon));
      }),
    );
  });

  it('is continuous in every angle but for the published step 10° from the Moon', () => {
    const step = 1e-4;
    fc.assert(
      fc.property(
        altitude,
        filter,
        fc.record({
          moonAltitudeDeg: degrees(1, 85),
          moonSeparationDeg: degrees(1, 150),
          moonPhaseAngleDeg: degrees(1, 120),
        }),
        (altitudeDeg, name, moon) => {
          fc.pre(Math.abs(moon.moonSeparationDeg - 10) > 2 * step);
          const share = (at: number, place: typeof moon) =>
            worthOf(light({ filter: name, sky: skyAt(at, place) })).share;
          const here = share(altitudeDeg, moon);
          expect(Math.abs(share(altitudeDeg - step, moon) - here)).toBeLessThan(1e-4);
          for (const angle of ['moonAltitudeDeg', 'moonSeparationDeg', 'moonPhaseAngleDeg'] as const) {
            expect(Math.abs(share(altitudeDeg, { ...moon, [angle]: moon[angle] - step }) - here)).toBeLessThan(1e-4);
          }
        },
      ),
    );
  });

  it('steps 10° from the Moon', () => {
    const share = (moonSeparationDeg: number) =>
      worthOf(light({ filter: 'L', sky: skyAt(60, { ...UNDER_MOON, moonSeparationDeg }) })).share;
    expect(Math.abs(share(10) - share(10 - 1e-6))).toBeGreaterThan(1e-4);
  });

  it('loses nothing to a Moon on or below the horizon', () => {
    fc.assert(
      fc.property(altitude, filter, degrees(-80, 0), (altitudeDeg, name, moonAltitudeDeg) => {
        const worth = worthOf(light({ filter: name, sky: skyAt(altitudeDeg, { moonAltitudeDeg }) }));
        expect(worth.moonBrighteningMag).toBe(0);
        expect(worth.share).toBe(worth.moonlessShare);
      }),
    );
  });

  it('is that of the sky alone where the rig file tells nothing of the noise', () => {
    const frame = light({ sky: skyAt(50, UNDER_MOON) });
    const alone = worthOf(frame, { cameras: [trainConfig()] });
    expect(alone.noise).toBe('sky-limited');
    expect(alone.share).toBeCloseTo(alone.transparency ** 2 / alone.skyRatio, 12);
    expect(alone.share).toBeLessThan(worthOf(frame).share);
  });

  it('hurts narrow bands less than broad ones under the same Moon', () => {
    const lost = (name: string) => {
      const { share, moonlessShare } = worthOf(light({ filter: name, sky: skyAt(60, UNDER_MOON) }));
      return 1 - share / moonlessShare;
    };
    expect(lost('Ha')).toBeLessThan(lost('L'));
    expect(lost('L')).toBeLessThan(lost('B'));
  });

  it('counts every sub against one of 300 s, whatever the others of its group or night are', () => {
    const share = (seconds: number, more: Partial<WeighInput> = {}) => worthOf(light({ seconds }), more).share;
    const among = weigh(input([light({ seconds: 60 }), light({ seconds: 60 }), light()])).frames.map(
      (f) => f.worth?.share ?? NaN,
    );
    expect(among).toEqual([share(60), share(60), share(300)]);
    expect(share(300)).toBeCloseTo(1, 12);
    expect(share(60)).toBeLessThan(0.5);
    expect(share(600)).toBeGreaterThan(1);
    expect(share(600, { referenceSubSeconds: 600 })).toBeCloseTo(1, 12);
  });

  it('is unknown for a target below the horizon, without coordinates, or without a site', () => {
    const [low, nowhere] = weigh(input([light({ sky: skyAt(-1) }), light({ sky: null })])).frames;
    expect(low?.worth).toBeUndefined();
    expect(nowhere?.worth).toBeUndefined();
    const frames = [light()];
    expect(weigh(input(frames, { elevationM: null }))).toEqual({ frames, totals: [], worth: null });
  });

  it('takes V for a filter it does not know, and says so', () => {
    const { frames, worth } = weigh(input([light({ filter: 'Dual band' })]));
    expect(worth?.noises[0]).toMatchObject({ filter: 'Dual band', assumedBand: true });
    expect(frames[0]?.worth?.extinctionPerAirmass).toBeCloseTo(SKY.extinction(550, 1100) ?? NaN, 12);
    const reported = weigh(
      input([light({ filter: 'Dual band' })], {
        cameras: [trainConfig({ filterWavelengthsNm: { 'dual BAND': 656 } })],
      }),
    );
    expect(reported.worth?.noises[0]?.assumedBand).toBe(false);
  });
});

describe('the range of a share', () => {
  it('holds the share, and is by clear air alone no more than that upwards', () => {
    fc.assert(
      fc.property(altitude, filter, moonlit, config, (altitudeDeg, name, moon, camera) => {
        const { share, lowShare, highShare } = worthOf(light({ filter: name, sky: skyAt(altitudeDeg, moon) }), {
          cameras: [camera],
        });
        expect(lowShare).toBeLessThan(share);
        expect(highShare).toBeGreaterThan(share);
      }),
    );
  });

  // Sky-limited, by hand: haze of 0.2 mag takes 1 − 10^(−0.16) of τ², a sky 0.2 mag brighter 1 − 10^(−0.08).
  it('comes of haze and of skies that differ where nothing was measured', () => {
    const worth = worthOf(light(), { cameras: [trainConfig()] });
    expect(worth.lowShare).toBeCloseTo(10 ** -0.24, 12);
    expect(worth.highShare).toBeCloseTo(10 ** 0.08, 12);
    expect(worth.doubts).toEqual(['clear-air', 'sky-of-nights']);
  });

  it('is wider by the model of moonlight, in V less than beside it', () => {
    const width = (name: string, sky: ReturnType<typeof skyAt>) => {
      const { lowShare, highShare } = worthOf(light({ filter: name, sky }), { cameras: [trainConfig()] });
      return highShare / lowShare;
    };
    expect(width('Ha', skyAt(60, UNDER_MOON))).toBeGreaterThan(width('Ha', skyAt(60)) * 1.1);
    expect(width('L', skyAt(60, UNDER_MOON))).toBeLessThan(width('Ha', skyAt(60, UNDER_MOON)));
  });
});

describe('the worth of a total', () => {
  const totalOf = (frames: readonly JudgedFrame[]) => ({
    target: 'NGC 281',
    filter: 'Ha',
    train: 'heron',
    frames: { taken: frames.length, kept: frames.length, doubtful: 0, lost: 0 },
    ms: { taken: 0, kept: frames.length * 300_000, doubtful: 0, lost: 0 },
  });
  const worthOfTotal = (frames: readonly JudgedFrame[]) =>
    weigh(input(frames, { totals: [totalOf(frames)] })).totals[0]?.worth;

  it('adds up the kept frames, and those alone', () => {
    const frames = [
      light(),
      light({ sky: skyAt(50, UNDER_MOON) }),
      light({ verdict: 'lost' }),
      light({ verdict: 'doubtful' }),
    ];
    const { frames: weighed, totals } = weigh(input(frames, { totals: [totalOf(frames)] }));
    expect(totals[0]?.worth?.effectiveMs).toBeCloseTo(
      (weighed[0]?.worth?.effectiveMs ?? NaN) + (weighed[1]?.worth?.effectiveMs ?? NaN),
      6,
    );
    expect(weighed[2]?.worth?.share).toBeGreaterThan(0);
  });

  it('tells what the Moon took: nothing while it is down', () => {
    expect(worthOfTotal([light(), light()])).toMatchObject({ moonLossMs: 0, moonShutterMs: 0 });
    const moonlitTotal = worthOfTotal([light({ sky: skyAt(70, UNDER_MOON) })]);
    expect(moonlitTotal?.moonLossMs).toBeGreaterThan(60_000);
    expect(moonlitTotal?.moonShutterMs).toBeGreaterThan(moonlitTotal?.moonLossMs ?? NaN);
  });

  it('is not given in part: one kept frame without a position makes it unknown', () => {
    expect(worthOfTotal([light(), light({ sky: null })])).toBeUndefined();
    expect(worthOfTotal([])).toBeUndefined();
  });

  it('names the frames that lower a plain mean, worst first', () => {
    const dark = Array.from({ length: 8 }, () => light({ filter: 'B' }));
    const worse = light({ filter: 'B', sky: skyAt(25, { ...UNDER_MOON, moonSeparationDeg: 25 }) });
    const bad = light({ filter: 'B', sky: skyAt(60, UNDER_MOON) });
    const frames = [bad, ...dark, worse];
    const total = { ...totalOf(frames), filter: 'B' };
    expect(weigh(input(frames, { totals: [total] })).totals[0]?.worth?.marginal).toEqual([worse.id, bad.id]);
  });

  it('is kept apart by filter and by train', () => {
    const frames = [light(), light({ filter: 'L' }), light({ train: 'wren' })];
    const totals = [totalOf([]), { ...totalOf([]), filter: 'L' }, { ...totalOf([]), train: 'wren' }];
    const worths = weigh(input(frames, { totals })).totals.map((t) => t.worth?.effectiveMs);
    for (const worth of worths) expect(worth).toBeCloseTo(300_000, 6);
  });
});
