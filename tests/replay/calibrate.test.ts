import { SkyAt } from '../../src/replay/sky-at.js';
import { describe, expect, it } from 'vitest';
import type { FrameStars, Night } from '../../src/model/index.js';
import { calibrate } from '../../src/replay/calibrate/index.js';
import type { Course } from '../../src/replay/course.js';
import { inOrder } from '../../src/replay/draws.js';
import { applySettings, parseSetting, type Setting } from '../../src/replay/settings.js';
import { simulate } from '../../src/replay/simulate.js';
import {
  act,
  calibrationFrame,
  curve,
  dithered,
  guidingOf,
  HERON,
  HOUR,
  lights,
  nightOf,
  place,
  quick,
  T0,
} from '../findings/support.js';
import { flexureAt, pairOf, pointed } from '../support/pointing.js';

function courseOf(night: Night): Course {
  const calibrated = calibrate(night);
  if ('missing' in calibrated) throw new Error(calibrated.missing);
  return calibrated.course;
}

describe('the rules as a night shows them', () => {
  it('are the count, the lead, and a companion that counts for itself', () => {
    const { rules } = courseOf(
      nightOf(
        dithered({ blocks: 10, trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 180, count: 3 } } }),
      ),
    );
    expect(rules).toMatchObject({ ditherEvery: 3, lead: 'heron', awaited: ['heron', 'wren'], ownCount: { wren: 3 } });
  });

  it('are the patience of a companion that stops when a dither is near', () => {
    // wren waits 20 s; at the start of its last exposure the dither was 263 s away.
    const { rules } = courseOf(
      nightOf(
        dithered({ blocks: 10, trains: { heron: { seconds: 330, count: 3 }, wren: { seconds: 240, count: 4 } } }),
      ),
    );
    expect(rules.ownCount).toEqual({});
    expect(rules.patienceMs.wren).toBeGreaterThan(20_000);
    expect(rules.patienceMs.wren).toBeLessThan(40_000);
  });

  it('leave open whether a companion that no dither ever caught free would wait, and promise nothing by it', () => {
    // wren ends its second sub 62 s before heron's third and begins another: heron waits six minutes each time.
    const course = courseOf(
      nightOf(
        dithered({ blocks: 10, trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 420, count: 3 } } }),
      ),
    );
    expect(course.unseenPatience).toEqual(['wren']);
    // Seven of heron's frames end five seconds after five of wren's: a companion that does not wait begins a sixth.
    const [seven, said] = ['dither-every=7', 'patience.wren=60'].map((text) => {
      const setting = parseSetting(text, ['heron', 'wren']);
      if (typeof setting === 'string') throw new Error(setting);
      return setting;
    });
    expect(applySettings(course, [seven!]).patienceMs).toEqual({ wren: 0 });
    expect(applySettings(course, [seven!, said!]).patienceMs).toEqual({ wren: 60_000 });
    expect(applySettings(course, []).patienceMs.wren).toBeGreaterThan(0);
    const waits = (settings: readonly Setting[]): number =>
      simulate(course, applySettings(course, settings), inOrder).waitedMs[0] ?? NaN;
    NaN;
    expect(waits([seven!])).toBeGreaterThan(waits([seven!, said!]) + 5 * 60_000);
  });

  it('are that a companion is dithered through where its shutter was open', () => {
    const heron = dithered({ blocks: 10, trains: { heron: { seconds: 300, count: 3 } } });
    const wren = lights('wren', { from: 0, seconds: 250, count: 36 });
    const night = nightOf({ frames: [...heron.frames, ...wren], activities: heron.activities });
    const calibrated = calibrate(night);
    if ('missing' in calibrated) throw new Error(calibrated.missing);
    expect(calibrated.course.rules.awaited).toEqual(['heron']);
    expect(calibrated.rules.map((r) => r.value).join()).toContain(
      'is not waited for: the mount dithers during its exposures',
    );
  });

  it('are that no sub of a companion is longer than its measured flexure bears', () => {
    const night = nightOf(
      dithered({ blocks: 10, trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 240, count: 3 } } }),
    );
    const longest = (pxPerHour: number, isMeasured = true) => {
      const pair = pairOf({});
      const { trains } = courseOf(
        pointed(night, { pairs: [{ ...pair, flexure: flexureAt(pxPerHour, { isMeasured }) }] }),
      );
      return trains.map(({ id, longestSub }) => [id, longestSub?.ms ?? null]);
    };
    // Half a pixel at 6 px an hour: 300 s.
    expect(longest(6)).toEqual([
      ['heron', null],
      ['wren', 300_000],
    ]);
    expect(longest(6, false).map(([, ms]) => ms)).toEqual([null, null]);
  });

  it('are that no sub is longer than one whose pixels are saturated already', () => {
    const night = nightOf(dithered({ blocks: 10, trains: { heron: { seconds: 300, count: 3 } } }));
    const longest = (saturated: number) => {
      const frames = Object.fromEntries(
        night.accounts.lights.map((f) => [f.id, { saturated } as unknown as FrameStars]),
      );
      const { stars } = pointed(night, { pairs: [] });
      if (!stars) throw new Error('no stars');
      return courseOf({ ...night, stars: { ...stars, frames } }).trains[0]?.longestSub;
    };
    expect(longest(0.001)).toBeNull();
    expect(longest(0.01)).toEqual({ ms: 300_000, why: 'more than 0.2 % of the pixels are saturated at 300 s already' });
  });

  it('are no dithers where none were made, and an assumed length for those one may ask for', () => {
    const course = courseOf(
      nightOf({
        frames: [
          ...lights('heron', { from: 0, seconds: 300, count: 10 }),
          ...lights('wren', { from: 0, seconds: 300, count: 10 }),
        ],
      }),
    );
    expect(course.rules.ditherEvery).toBeNull();
    expect(course.cycles.certainty).toBe('assumed');
    expect(course.assumed[0]).toContain('none was seen on this night');
  });

  it('are inferred, and said to be, without a log', () => {
    const calibrated = calibrate(
      nightOf({ ...dithered({ blocks: 10, trains: { heron: { seconds: 300, count: 3 } } }), headersOnly: true }),
    );
    if ('missing' in calibrated) throw new Error(calibrated.missing);
    expect(calibrated.rules.every((r) => r.certainty === 'inferred')).toBe(true);
  });
});

describe('what a night gives to be replayed', () => {
  it('are its durations, measured', () => {
    const [heron] = courseOf(
      nightOf(dithered({ blocks: 10, trains: { heron: { seconds: 300, count: 3, pause: 4 } }, move: 5, settle: 11 })),
    ).trains;
    const { cycles } = courseOf(
      nightOf(dithered({ blocks: 10, trains: { heron: { seconds: 300, count: 3, pause: 4 } }, move: 5, settle: 11 })),
    );
    expect(heron?.turnarounds).toMatchObject({ typicalMs: 4000, certainty: 'measured' });
    expect(cycles.typicalMs).toBe(16_000);
  });

  it('are its plan: filters with their changes', () => {
    const frames = [
      ...lights('heron', { from: 0, seconds: 300, count: 4 }),
      ...lights('heron', { from: 1220, seconds: 120, count: 5, filter: 'OIII' }),
    ];
    const [heron] = courseOf(
      nightOf({
        frames,
        activities: [act('filter', 1212, 1218, { train: 'heron', facts: { to: 'OIII' } })],
        trains: [HERON],
      }),
    ).trains;
    expect(heron?.blocks).toEqual([
      { target: 'NGC 281', filter: 'Ha', exposureMs: 300_000, frames: 4, filterMs: 0 },
      { target: 'NGC 281', filter: 'OIII', exposureMs: 120_000, frames: 5, filterMs: 6000 },
    ]);
  });

  it('are its refocuses, due while the exposure before them was open, with the pause of the guiding', () => {
    const frames = [
      ...lights('heron', { from: 0, seconds: 300, count: 4 }),
      ...lights('heron', { from: 1330, seconds: 300, count: 4 }),
    ];
    const activities = [
      act('focus', 1212, 1312, { train: 'heron', facts: { ok: true } }),
      act('guiding-rest', 1212, 1312, { causedBy: 'heron' }),
      act('guiding-start', 1312, 1320),
    ];
    const [heron] = courseOf(nightOf({ frames, activities, trains: [HERON] })).trains;
    expect(heron?.focusRuns).toEqual([
      { dueMs: T0 + (1209 - 150) * 1000, durationMs: 100_000, pausesGuiding: true, settleMs: 8000, why: 'other' },
    ]);
  });

  it('are its stops: a flip waits for every shutter, a cloud for none', () => {
    const frames = [
      ...lights('heron', { from: 0, seconds: 300, count: 4 }),
      ...lights('heron', { from: 1400, seconds: 300, count: 4 }),
      ...lights('heron', { from: 4400, seconds: 300, count: 4 }),
    ];
    const activities = [
      act('flip', 1215, 1310),
      act('centre', 1310, 1350),
      act('guiding-start', 1350, 1400),
      act('hold', 2700, 4300, { why: 'cloud' }),
      act('slew', 4300, 4340),
      act('guiding-start', 4380, 4400),
    ];
    const { stops } = courseOf(nightOf({ frames, activities, trains: [HERON] }));
    expect(stops.map((s) => [s.atItsTime, s.durationMs / 1000])).toEqual([
      [false, 185],
      [true, 1700],
    ]);
    expect(stops[0]?.motion).toEqual([{ startMs: 0, endMs: 135_000 }]);
  });

  it('are its absences: long rests that nothing explains', () => {
    const frames = [
      ...lights('heron', { from: 0, seconds: 300, count: 4 }),
      ...lights('heron', { from: 5000, seconds: 300, count: 4 }),
    ];
    const [heron] = courseOf(nightOf({ frames, trains: [HERON] })).trains;
    expect(heron?.absences).toMatchObject([{ untilMs: T0 + 5_000_000 }]);
    expect(heron?.absences[0]?.dueMs).toBeLessThan(T0 + 1_209_000);
  });

  it('are its lapses of guiding, but not the pauses that a refocus makes', () => {
    const frames = [
      ...lights('heron', { from: 0, seconds: 300, count: 4 }),
      ...lights('heron', { from: 1330, seconds: 300, count: 4 }),
      ...lights('wren', { from: 0, seconds: 240, count: 12 }),
    ];
    const activities = [
      act('guiding-stopped', -HOUR, -60),
      act('guiding-on', -60, 500),
      act('star-gap', 500, 530),
      act('guiding-on', 530, 1212),
      act('focus', 1212, 1312, { train: 'heron' }),
      act('guiding-rest', 1212, 1312, { causedBy: 'heron' }),
      act('guiding-on', 1312, 3000),
    ];
    const { conditions } = courseOf(nightOf({ frames, activities }));
    expect(conditions.lapses).toEqual([{ startMs: T0 + 500_000, endMs: T0 + 530_000 }]);
    expect(conditions.guidingOff).toEqual([{ startMs: T0 - 3_600_000, endMs: T0 - 60_000 }]);
  });

  it('is when the target stood too low, to a fraction of a minute', () => {
    const altitudeAt = (s: number): number => 20 + (10 * s) / HOUR;
    const frames = lights('heron', { from: 0, seconds: 300, count: 12 });
    const { conditions } = courseOf(
      nightOf({
        frames,
        trains: [HERON],
        curves: [curve('NGC 281', 0, HOUR, altitudeAt)],
        skyOf: (f) => place(f.exposure.startMs, 40),
      }),
    );
    // One reader for all, to and fro: it goes on from where it was asked last.
    const reader = new SkyAt(conditions);
    const isLow = (atMs: number): boolean => {
      const sky = reader.at('NGC 281', atMs);
      return sky !== null && sky.altitudeDeg < sky.limitDeg;
    };
    // 25° after half an hour.
    expect([-10_000, 10_000].map((ms) => isLow(T0 + 1_800_000 + ms))).toEqual([true, false]);
    // Before and after its curve it stands as at its ends: nothing is kept for want of a figure.
    expect([-HOUR, 2 * HOUR].map((s) => isLow(T0 + 1000 * s))).toEqual([true, false]);
    expect(reader.at('M 33', T0)).toBeNull();
    expect(isLow(T0)).toBe(true);
  });

  it('are its guiding errors, without those the mount’s own moves made', () => {
    const plan = dithered({ blocks: 4, trains: { heron: { seconds: 300, count: 3 } } });
    const moves = plan.activities.filter((a) => a.kind !== 'dither-ready');
    const within = (t: number): boolean =>
      moves.some((a) => T0 + t * 1000 >= a.span.startMs && T0 + t * 1000 < a.span.endMs);
    const guiding = guidingOf(0, plan.endSeconds, 2, (t, i) => (within(t) ? [30, 30] : [quick(0.5, i), quick(0.5, i)]));
    const sums = courseOf(nightOf({ ...plan, guiding, trains: [HERON] })).conditions.guiding;
    const last = (sums?.samples.length ?? 0) - 1;
    expect(Math.sqrt((sums?.squares[last] ?? NaN) / (sums?.samples[last] ?? NaN))).toBeCloseTo(Math.SQRT1_2, 6);
  });

  it('is nothing where no train took two lights', () => {
    expect(calibrate(nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 1 }) }))).toEqual({
      missing: 'a train with at least two lights',
    });
    expect(calibrate(nightOf({ frames: [calibrationFrame('heron', 'dark', 300)] }))).toEqual({
      missing: 'a train with at least two lights',
    });
  });
});
