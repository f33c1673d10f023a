import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Stop } from '../../src/replay/course.js';
import { inOrder, resampled } from '../../src/replay/draws.js';
import { judge } from '../../src/replay/judge.js';
import { simulate } from '../../src/replay/simulate.js';
import { courseOf, runExactly, START_MS } from './support.js';
import { runs } from '../support/runs.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const twins = [
  { id: 'heron', exposureMs: 300_000 },
  { id: 'wren', exposureMs: 240_000 },
] as const;
const focus = (atMinute: number, more = {}) => ({
  dueMs: START_MS + atMinute * MINUTE,
  durationMs: 100_000,
  pausesGuiding: true,
  settleMs: 10_000,
  ...more,
});
const stop = (more: Partial<Stop>, trains = ['heron', 'wren'], dueMinute = 60): Stop => ({
  beginMs: START_MS + dueMinute * MINUTE,
  atItsTime: false,
  notBeforeMs: null,
  durationMs: 3 * MINUTE,
  motion: [{ startMs: 0, endMs: 2 * MINUTE }],
  guidingOff: [],
  trains: Object.fromEntries(
    trains.map((id) => [id, { dueMs: START_MS + dueMinute * MINUTE, resumeMs: 0, cuts: true }]),
  ),
  ...more,
});

describe('a refocus on the guiding train', () => {
  it('spoils what the others expose meanwhile, and nothing of its own', () => {
    const { outcome } = runExactly(courseOf(4 * HOUR, [{ ...twins[0], focusRuns: [focus(62)] }, twins[1]]));
    expect(outcome.trains.heron?.lostOrDoubtfulFrames).toBe(0);
    expect(outcome.trains.wren?.lostOrDoubtfulFrames).toBe(1);
  });

  it('harms nobody with a guide scope, and is over sooner', () => {
    const plans = [{ ...twins[0], focusRuns: [focus(62)] }, twins[1]];
    const [axis, scope] = [courseOf(4 * HOUR, plans), courseOf(4 * HOUR, plans, { guiding: 'guide-scope' })].map(
      (c) => runExactly(c).outcome,
    );
    expect(scope?.trains.wren?.lostOrDoubtfulFrames).toBe(0);
    expect((scope?.keptMs ?? 0) - (axis?.keptMs ?? 0)).toBeGreaterThan(240_000);
  });

  it('harms nobody when all focus together at the next dither', () => {
    const plans = [
      { ...twins[0], focusRuns: [focus(62)] },
      { ...twins[1], focusRuns: [focus(80, { pausesGuiding: false })] },
    ];
    const { outcome, run } = runExactly(
      courseOf(4 * HOUR, plans, { ditherEvery: 3, focus: 'together' }, { cycleMs: 16_000 }),
    );
    expect(outcome.trains.wren?.lostOrDoubtfulFrames).toBe(0);
    expect(run.guidingOff).toEqual([]);
  });

  it('lets a train rest that is known to rest in pauses', () => {
    // wren is free 30 s into the refocus and begins again when the guiding has settled.
    const plans = [
      { id: 'heron', exposureMs: 300_000, focusRuns: [focus(4)] },
      { id: 'wren', exposureMs: 330_000 },
    ];
    const { run } = runExactly(courseOf(HOUR, plans, {}, { restsInPauses: ['wren'] }));
    expect(run.exposures[1]?.[1]?.startMs).toBe(START_MS + 300_000 + 110_000);
  });
});

describe('a stop of the mount', () => {
  it('waits for every shutter, and nobody begins another exposure before it', () => {
    const { run, outcome } = runExactly(courseOf(3 * HOUR, twins, {}, { stops: [stop({})] }));
    const [heron, wren] = run.exposures;
    // At one hour both are between exposures: twelve of 300 s, fifteen of 240 s.
    expect(heron?.filter((e) => e.startMs < START_MS + HOUR)).toHaveLength(12);
    expect(wren?.filter((e) => e.startMs < START_MS + HOUR)).toHaveLength(15);
    expect([heron?.[12]?.startMs, wren?.[15]?.startMs]).toEqual([
      START_MS + HOUR + 3 * MINUTE,
      START_MS + HOUR + 3 * MINUTE,
    ]);
    expect([outcome.trains.heron?.lostOrDoubtfulFrames, outcome.trains.wren?.lostOrDoubtfulFrames]).toEqual([0, 0]);
  });

  it('spoils the exposures of a train that does not rest for it', () => {
    const { outcome } = runExactly(courseOf(3 * HOUR, twins, {}, { stops: [stop({}, ['heron'])] }));
    expect(outcome.trains.wren?.lostOrDoubtfulFrames).toBe(1);
  });

  it('cuts open shutters when it comes at its own time', () => {
    const cloud = stop({ atItsTime: true, beginMs: START_MS + HOUR + 100_000, durationMs: 20 * MINUTE, motion: [] });
    const { run, outcome } = runExactly(courseOf(3 * HOUR, twins, {}, { stops: [cloud] }));
    for (const exposures of run.exposures) {
      expect(exposures.filter((e) => e.cut).map((e) => e.endMs)).toEqual([cloud.beginMs]);
      expect(exposures.find((e) => e.startMs > cloud.beginMs)?.startMs).toBe(cloud.beginMs + cloud.durationMs);
    }
    expect(outcome.trains.heron?.lostOrDoubtfulFrames).toBe(1);
  });

  it('comes before a dither that was being waited for', () => {
    const cloud = stop({ atItsTime: true, beginMs: START_MS + 930_000, durationMs: 20 * MINUTE, motion: [] });
    // heron is ready at 900 s and waits for wren until 960 s: the clouds come in between.
    const { run } = runExactly(courseOf(3 * HOUR, twins, { ditherEvery: 3 }, { cycleMs: 16_000, stops: [cloud] }));
    expect(run.exposures[0]?.[3]?.startMs).toBe(cloud.beginMs + cloud.durationMs);
    expect(run.motion.every((m) => m.startMs > cloud.beginMs + cloud.durationMs)).toBe(true);
  });

  it('starts the count to the next dither again, or not, as the night showed', () => {
    const counted = (stopsResetCount: boolean) => {
      const { run } = runExactly(
        courseOf(
          3 * HOUR,
          [twins[0]],
          { ditherEvery: 7 },
          { cycleMs: 16_000, stops: [stop({}, ['heron'], 50)], stopsResetCount },
        ),
      );
      const firstAfter = run.motion.find((m) => m.endMs - m.startMs === 16_000 && m.startMs > START_MS + 50 * MINUTE);
      return run.exposures[0]?.filter(
        (e) => e.startMs >= START_MS + 53 * MINUTE && e.endMs <= (firstAfter?.startMs ?? 0),
      ).length;
    };
    expect(counted(true)).toBe(7);
    // Seven frames and a dither were over at 35 minutes; three more went before the stop.
    expect(counted(false)).toBe(4);
  });
});

describe('a train that is not there', () => {
  it('is not waited for while it is absent, and goes on when it is back', () => {
    const absent = [{ dueMs: START_MS + 30 * MINUTE, untilMs: START_MS + 90 * MINUTE }];
    const { outcome, run } = runExactly(
      courseOf(3 * HOUR, [twins[0], { ...twins[1], absences: absent }], { ditherEvery: 3 }, { cycleMs: 16_000 }),
    );
    expect(outcome.dithers).toBeGreaterThan(8);
    expect(
      run.exposures[1]?.some((e) => e.startMs > absent[0]!.dueMs + 10 * MINUTE && e.startMs < absent[0]!.untilMs),
    ).toBe(false);
    expect(run.exposures[1]?.some((e) => e.startMs === absent[0]!.untilMs)).toBe(true);
  });

  it('is not waited for before its start, unless the night showed that it was', () => {
    const late = { ...twins[1], startMs: START_MS + HOUR };
    expect(
      runExactly(courseOf(2 * HOUR, [twins[0], late], { ditherEvery: 3 }, { cycleMs: 16_000 })).run.motion[0]?.startMs,
    ).toBe(START_MS + 900_000);
    expect(
      runExactly(
        courseOf(2 * HOUR, [twins[0], late], { ditherEvery: 3 }, { cycleMs: 16_000, awaitedToStart: ['wren'] }),
      ).run.motion[0]?.startMs,
    ).toBe(late.startMs);
  });

  it('leaves the other without dithers when the leading one is done', () => {
    const { run } = runExactly(
      courseOf(
        3 * HOUR,
        [{ ...twins[0], endMs: START_MS + HOUR }, twins[1]],
        { ditherEvery: 3, ownCount: { wren: 4 } },
        { cycleMs: 16_000 },
      ),
    );
    expect(run.motion.every((m) => m.startMs <= START_MS + HOUR + 10 * MINUTE)).toBe(true);
    expect(run.exposures[1]?.at(-1)?.endMs).toBeGreaterThan(START_MS + 3 * HOUR - 240_000);
  });
});

describe('a dither that does not wait', () => {
  it('spoils what the other train has open', () => {
    const { outcome } = runExactly(
      courseOf(
        3 * HOUR,
        [twins[0], { id: 'wren', exposureMs: 250_000 }],
        { ditherEvery: 3, awaited: ['heron'] },
        { cycleMs: 16_000 },
      ),
    );
    expect(outcome.trains.heron?.waitedMs).toBe(0);
    expect(outcome.trains.wren?.lostOrDoubtfulFrames).toBeGreaterThanOrEqual(outcome.dithers - 1);
  });
});

describe('the end of the night', () => {
  it('counts an exposure that reaches over it with the part before', () => {
    const { outcome } = runExactly(courseOf(1000_000, [twins[0]]));
    expect(outcome.trains.heron).toMatchObject({ keptMs: 1000_000, keptFrames: 3 });
  });
});

describe('any course', () => {
  it('is run to its end: exposures of a train never overlap, and no integration is longer than the night', () => {
    const ms = (min: number, max: number) => fc.integer({ min, max });
    fc.assert(
      fc.property(
        fc.record({
          a: ms(30_000, 900_000),
          b: ms(30_000, 900_000),
          turn: ms(0, 20_000),
          every: fc.option(ms(1, 12), { nil: null }),
          cycle: ms(0, 60_000),
          patience: ms(0, 300_000),
          own: fc.option(ms(1, 12), { nil: undefined }),
          together: fc.boolean(),
          awaited: fc.boolean(),
          late: ms(0, HOUR),
          dues: fc.array(ms(0, 180), { maxLength: 4 }),
          holds: fc.array(fc.tuple(ms(0, 170), fc.boolean()), { maxLength: 3 }),
          absent: fc.option(ms(0, 150), { nil: undefined }),
          seed: ms(1, 50),
          together2: fc.boolean(),
        }),
        (p) => {
          const focusRuns = [...p.dues].sort((x, y) => x - y).map((m) => focus(m));
          const absences =
            p.absent === undefined
              ? []
              : [{ dueMs: START_MS + p.absent * MINUTE, untilMs: START_MS + (p.absent + 20) * MINUTE }];
          const stops = [...p.holds]
            .sort((x, y) => x[0] - y[0])
            .map(([minute, atItsTime], i) =>
              stop({ atItsTime, beginMs: START_MS + (minute + 12 * i) * MINUTE }, ['heron', 'wren'], minute + 12 * i),
            );
          const course = courseOf(
            3 * HOUR,
            [
              { id: 'heron', exposureMs: p.a, turnaroundMs: p.turn, focusRuns },
              {
                id: 'wren',
                exposureMs: p.b,
                turnaroundMs: p.turn,
                startMs: START_MS + p.late,
                absences,
                focusRuns: p.together2 ? focusRuns : [],
              },
            ],
            {
              ditherEvery: p.every,
              awaited: p.awaited ? ['heron', 'wren'] : ['heron'],
              patienceMs: { wren: p.patience },
              ownCount: p.own === undefined ? {} : { wren: p.own },
              focus: p.together ? 'together' : 'own',
            },
            { cycleMs: p.cycle, stops },
          );
          for (const draws of [inOrder, resampled(p.seed)]) {
            const run = simulate(course, course.rules, draws);
            // A run may take over the exposures of another, longer or shorter: it is the same run.
            const spent = simulate(course, { ...course.rules, exposureMs: { heron: p.b } }, resampled(p.seed + 1));
            expect(simulate(course, course.rules, draws, spent)).toEqual(run);
            for (const [i, exposures] of run.exposures.entries()) {
              const train = course.trains[i]!;
              const misplaced = exposures.filter(
                (e, k) =>
                  e.endMs < e.startMs ||
                  e.startMs >= train.endMs ||
                  e.startMs < (exposures[k - 1]?.endMs ?? train.startMs),
              );
              expect(misplaced).toEqual([]);
            }
            const outcome = judge(course, run, draws);
            for (const tally of Object.values(outcome.trains)) {
              expect(tally.keptMs).toBeLessThanOrEqual(3 * HOUR);
              expect(tally.waitedMs).toBeGreaterThanOrEqual(0);
            }
          }
        },
      ),
      runs(100),
    );
  });
});
