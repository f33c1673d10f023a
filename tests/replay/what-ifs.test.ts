import { describe, expect, it } from 'vitest';
import { isReplayed, sum, type Night, type Replay } from '../../src/model/index.js';
import { bestParts } from '../../src/replay/best.js';
import { compareWith } from '../../src/replay/compare.js';
import { boundsOf } from '../../src/replay/limits.js';
import { replayNight, replayWith } from '../../src/replay/index.js';
import { inOrder } from '../../src/replay/draws.js';
import { applySettings, formatSetting } from '../../src/replay/settings.js';
import { simulate } from '../../src/replay/simulate.js';
import { questionsOf } from '../../src/replay/what-ifs.js';
import { replayInFull } from '../support/few-replays.js';
import { namedNight } from '../support/nights.js';
import { sampleNight } from '../support/sample-night.js';
import type { Course, TrainCourse } from '../../src/replay/course.js';
import { courseOf } from './support.js';

// Its figures are what is asked here.
replayInFull();

const twins = (rules = {}) =>
  courseOf(
    36_000_000,
    [
      { id: 'heron', exposureMs: 300_000, turnaroundMs: 3000 },
      { id: 'wren', exposureMs: 240_000, turnaroundMs: 3000 },
    ],
    { ditherEvery: 3, ...rules },
  );
function replayOf(night: Night): Replay {
  if (!isReplayed(night.replay)) throw new Error('the night was not replayed');
  return night.replay;
}

describe('what is asked of a night', () => {
  it('is asked once, though half of a length is in step as well', () => {
    const course = courseOf(
      36_000_000,
      ['heron', 'wren'].map((id) => ({ id, exposureMs: 180_000, turnaroundMs: 3000 })),
      { ditherEvery: 3 },
    );
    const asked = questionsOf(course).filter((q) =>
      q.settings.every((s) => s.key === 'exposure' && s.train === 'wren'),
    );
    const lengths = asked.map((q) => q.settings.map(formatSetting).join());
    expect(lengths).toContain('exposure.wren=90');
    expect(new Set(lengths).size).toBe(lengths.length);
  });

  it('has dithers at every count from 1 to 12, and says which was the night’s own', () => {
    const counts = questionsOf(twins()).filter((q) => q.group === 'dither-every');
    expect(counts.map((q) => q.id)).toEqual(Array.from({ length: 12 }, (_, i) => `dither-every-${i + 1}`));
    expect(counts.filter((q) => q.title.endsWith('as it was')).map((q) => q.id)).toEqual(['dither-every-3']);
  });

  it('has exposures that fill the time to a dither, nearest to the companion’s own first', () => {
    const seconds = (rules = {}) =>
      questionsOf(twins(rules))
        .filter((q) => q.group === 'companion-exposure')
        .map((q) => q.settings[0])
        .map((s) => (s?.key === 'exposure' ? s.seconds : NaN));
    // 3 × 303 s ÷ 4 − 3 s = 224.25 s: a train that waits takes the next length that somebody would set, one that does
    // not is ready a moment after.
    expect(seconds({ patienceMs: { wren: 30_000 } })[0]).toBe(225);
    expect(seconds({ patienceMs: { wren: 0 } })[0]).toBe(230);
    expect(seconds({ ownCount: { wren: 4 } })[0]).toBe(225);
    expect(seconds()).toContain(300);
    for (const length of [...seconds(), ...seconds({ ownCount: { wren: 4 } })]) expect(length % 5).toBe(0);
  });

  const waitedMs = (course: Course, rules: Course['rules']): number => sum(simulate(course, rules, inOrder).waitedMs);

  it('brings three trains of three lengths in step at once, where one alone would leave another out', () => {
    const course = courseOf(
      36_000_000,
      [
        { id: 'heron', exposureMs: 300_000, turnaroundMs: 3000 },
        { id: 'wren', exposureMs: 240_000, turnaroundMs: 3000 },
        { id: 'owl', exposureMs: 200_000, turnaroundMs: 4000 },
      ],
      { ditherEvery: 3, patienceMs: { wren: 30_000, owl: 30_000 } },
    );
    const asked = questionsOf(course).filter((q) => q.group === 'companion-exposure');
    const together = asked.find((q) => q.id === 'companions-in-step');
    expect(together?.title).toBe('wren exposes 225 s; owl exposes 180 s, in step with heron');
    const before = waitedMs(course, course.rules);
    const after = asked.map((q) => waitedMs(course, applySettings(course, q.settings)));
    expect(Math.min(...after)).toBe(waitedMs(course, applySettings(course, together?.settings ?? [])));
    expect(Math.min(...after)).toBeLessThan(before / 4);
  });

  it('brings filters of several lengths in step with what the lead takes meanwhile', () => {
    const course = courseOf(
      36_000_000,
      [
        { id: 'heron', exposureMs: 300_000, turnaroundMs: 3000 },
        { id: 'wren', exposureMs: 240_000, turnaroundMs: 3000 },
      ],
      { ditherEvery: 3, patienceMs: { wren: 30_000 } },
    );
    const plans = {
      heron: ['Ha', 300_000, 60, 'L', 120_000, 146],
      wren: ['OIII', 240_000, 74, 'R', 100_000, 174],
    } as const;
    const mixed = {
      ...course,
      trains: course.trains.map((t): TrainCourse => {
        const [first, firstMs, many, second, secondMs, more] = plans[t.id === 'heron' ? 'heron' : 'wren'];
        const block = (filter: string, exposureMs: number, frames: number) =>
          ({ target: 'NGC 281', filter, exposureMs, frames, filterMs: 0 }) as const;
        return { ...t, blocks: [block(first, firstMs, many), block(second, secondMs, more)] };
      }),
    };
    const together = questionsOf(mixed).find((q) => q.id === 'companions-in-step');
    // 3 × 303 s are 4 × 228 s, and 3 × 123 s are 4 × 93 s, less the pauses.
    expect(together?.title).toBe('wren exposes 225 s in OIII and 90 s in R, in step with heron');
    expect(waitedMs(mixed, applySettings(mixed, together?.settings ?? []))).toBeLessThan(
      waitedMs(mixed, mixed.rules) / 2,
    );
  });

  it('does not ask a train of mixed exposures to change them', () => {
    const course = twins();
    const mixed = {
      ...course,
      trains: course.trains.map((t) =>
        t.id === 'wren'
          ? { ...t, blocks: [60_000, 300_000].map((exposureMs) => ({ ...t.blocks[0]!, exposureMs, frames: 30 })) }
          : t,
      ),
    };
    expect(questionsOf(mixed).some((q) => q.settings.some((s) => s.key === 'exposure' && s.train === 'wren'))).toBe(
      false,
    );
  });

  it('asks one train only what one train can change', () => {
    const alone = courseOf(36_000_000, [{ id: 'heron', exposureMs: 300_000 }], { ditherEvery: 3 });
    expect(new Set(questionsOf(alone).map((q) => q.group))).toEqual(new Set(['dither-every', 'sub-length']));
  });

  it('asks for the slower train’s lead only where it is not leading', () => {
    expect(questionsOf(twins()).some((q) => q.group === 'dither-lead')).toBe(false);
    expect(questionsOf(twins({ lead: 'wren' })).find((q) => q.group === 'dither-lead')?.title).toContain(
      'heron, the slower train',
    );
  });
});

describe('the answers', async () => {
  const night = await sampleNight('twin-night');
  const replay = replayOf(night);

  it('are the same each time: seeds are fixed', () => {
    expect(replayNight(night)).toEqual(replay);
  });

  it('give nothing for the night’s own rules', () => {
    const own = replay.whatIfs.find((w) => w.id === 'dither-every-3');
    expect(own?.gain).toEqual({ meanMs: 0, lowMs: 0, highMs: 0 });
    expect(own?.outcome).toEqual(replay.baseline);
  });

  it('add up: the gain is the difference of what is kept, and its mean lies within its spread', () => {
    for (const w of replay.whatIfs) {
      expect(w.gain.meanMs).toBeCloseTo(w.outcome.keptMs - replay.baseline.keptMs, 3);
      expect(w.outcome.keptMs).toBeCloseTo(
        Object.values(w.outcome.trains).reduce((s, t) => s + t.keptMs, 0),
        3,
      );
      expect(w.gain.lowMs).toBeLessThanOrEqual(w.gain.highMs);
    }
  });

  it('win most of the waits back when the companion is put in step', () => {
    const waited = replay.baseline.trains.heron?.waitedMs ?? 0;
    const inStep = replay.whatIfs.find((w) => w.id === 'companion-exposure-wren-300');
    expect(waited).toBeGreaterThan(25 * 60_000);
    expect(inStep?.outcome.trains.heron?.waitedMs).toBeLessThan(waited / 3);
    expect(inStep?.gain.lowMs).toBeGreaterThan(10 * 60_000);
  });

  it('save the frame that a refocus on the guiding train cost', () => {
    const together = replay.whatIfs.find((w) => w.id === 'focus-together');
    expect(together?.outcome.trains.wren?.lostOrDoubtfulFrames).toBeLessThan(
      replay.baseline.trains.wren?.lostOrDoubtfulFrames ?? 0,
    );
  });

  it('have none within the limits that gains more than the best together, unless it asks for darks or hardware', () => {
    const free = replay.whatIfs.filter((w) => w.outside.length === 0 && w.newDarks.length === 0 && !w.handsOn);
    expect(free.length).toBeGreaterThan(2);
    for (const w of free) expect(w.gain.meanMs).toBeLessThanOrEqual(replay.best?.gain.meanMs ?? 0);
    expect(replay.best?.outside).toEqual([]);
  });

  it('prefer a length that another train uses to an odd one that wins as much', () => {
    const course = courseOf(
      36_000_000,
      [
        { id: 'heron', exposureMs: 300_000, turnaroundMs: 3000 },
        { id: 'wren', exposureMs: 260_000, turnaroundMs: 3000 },
      ],
      { ditherEvery: 3, patienceMs: { wren: 30_000 } },
    );
    const comparison = compareWith(course);
    const lengths = questionsOf(course).filter((q) => q.group === 'companion-exposure');
    const answers = new Map(
      lengths.map((q) => {
        const measured = comparison.measure(q.settings);
        const bounds = boundsOf(course, q.settings, measured.outcome.places, comparison.baseline.places);
        return [q, { ...q, settings: q.settings.map(formatSetting), ...measured, ...bounds }];
      }),
    );
    const gainOf = (id: string) => [...answers.values()].find((w) => w.id === `companion-exposure-wren-${id}`)?.gain;
    expect(gainOf('450')?.meanMs).toBeGreaterThanOrEqual(gainOf('300')?.meanMs ?? Infinity);
    const best = bestParts(course, answers, comparison).flatMap((q) => q.settings.map(formatSetting));
    expect(best).toEqual(['exposure.wren=300']);
  });

  it('let a sub grow by more than half where sky and read noise ask for it, and no further', () => {
    const course = twins();
    const [lead, wren] = course.trains;
    if (!lead || !wren) throw new Error('two trains were asked for');
    const outside = (longerUpToMs: number | null, seconds: number) =>
      boundsOf(
        { ...course, trains: [lead, { ...wren, longerUpToMs }] },
        [{ key: 'exposure', train: wren.id, seconds }],
        [],
        [],
      ).outside.length;
    const twice = (2 * wren.usualMs) / 1000;
    expect([outside(null, twice), outside(1000 * twice, twice), outside(1000 * twice, twice + 60)]).toEqual([1, 0, 1]);
    expect(outside(1000 * twice, twice / 8)).toBe(1);
    const both = [lead, wren].map(({ id, usualMs }) => ({
      key: 'exposure' as const,
      train: id,
      seconds: usualMs / 2000,
    }));
    expect(boundsOf(course, both, [], []).outside).toEqual([
      expect.stringMatching(new RegExp(`^changes ${lead.id}’s and ${wren.id}’s subs by more than half`)),
    ]);
  });

  it('advise no start that is later, or sooner by a moment: what it wins is luck', () => {
    const course = twins();
    const [lead, wren] = course.trains;
    if (!lead || !wren) throw new Error('two trains were asked for');
    const outside = (wasMin: number, minutes: number) =>
      boundsOf(
        { ...course, trains: [lead, { ...wren, startMs: lead.startMs + wasMin * 60_000 }] },
        [{ key: 'start-offset', train: wren.id, minutes }],
        [],
        [],
      ).outside.length;
    expect([outside(3, 2.5), outside(2.5, 5), outside(60, 2.5), outside(60, 0)]).toEqual([1, 1, 0, 1]);
  });

  it('make a best combination that beats its parts and does not dither too seldom', () => {
    const { best } = replay;
    // What cost most on this night: a companion out of step, and a refocus under its open shutter.
    expect(best?.settings.some((s) => s.startsWith('exposure.wren='))).toBe(true);
    expect(best?.settings).toContain('focus=together');
    const parts = replay.whatIfs.filter((w) => w.settings.every((s) => best?.settings.includes(s)));
    expect(parts).toHaveLength(best?.settings.length ?? 0);
    for (const part of parts) expect(best?.gain.meanMs).toBeGreaterThan(part.gain.meanMs);
  });

  it('are what the same settings give when asked for by hand', () => {
    const own = replayWith(night, replay.best?.settings ?? []);
    expect(own).toMatchObject({ id: 'own', gain: replay.best?.gain, outcome: replay.best?.outcome });
    expect(replayWith(night, ['dither-every=x', 'colour=red'])).toEqual({
      problems: [expect.stringContaining('whole number'), expect.stringContaining('no setting colour')],
    });
  });

  it('say where a filter would be dithered to too few places, but do not blame settings for what the night lacked', () => {
    const at = (places: number) => [{ train: 'heron', target: 'NGC 281', filter: 'Ha', places }];
    const outside = (now: number, before: number) => boundsOf(twins(), [], at(now), at(before)).outside;
    expect(outside(11, 30)).toEqual(['leaves 11 dither positions for Ha on heron']);
    expect(outside(12, 30)).toEqual([]);
    expect(outside(5, 5)).toEqual([]);
    expect(outside(3, 5)).toHaveLength(1);
    expect(boundsOf(twins(), [], [], at(14)).outside).toEqual([expect.stringContaining('leaves no dither position')]);
  });

  it('count a place for every dither between kept frames, and none twice', () => {
    // 303 s a frame, a dither of 16 s after every third: what lies between two dithers lies in one place.
    for (const { places, frames } of [replay.baseline, replay.best?.outcome ?? replay.baseline].flatMap((o) =>
      o.places.map((p) => ({ places: p.places, frames: o.trains[p.train]?.keptFrames ?? 0 })),
    )) {
      expect(places).toBeGreaterThan(0);
      expect(places).toBeLessThanOrEqual(frames);
    }
    const counted = replay.exact.places.filter((p) => p.train === 'heron').reduce((n, p) => n + p.places, 0);
    // A filter change between two dithers counts the place for both filters: two changes on this night at most a train.
    expect(counted).toBeGreaterThan(0.85 * replay.exact.dithers);
    expect(counted).toBeLessThanOrEqual(replay.exact.dithers + 1 + 6);
  });

  it('leave subs of another length alone', () => {
    const course = twins();
    const mixed = {
      ...course,
      trains: course.trains.map((t) =>
        t.id === 'wren'
          ? {
              ...t,
              blocks: [
                { ...t.blocks[0]!, filter: 'L', frames: 90 },
                { ...t.blocks[0]!, filter: 'Ha', exposureMs: 600_000, frames: 10 },
              ],
            }
          : t,
      ),
    };
    const asked = questionsOf(mixed).find((q) => q.group === 'companion-exposure');
    expect(asked?.settings).toEqual([{ key: 'exposure', train: 'wren', filter: 'L', seconds: expect.any(Number) }]);
    expect(asked?.title).toContain('Ha at 600 s stays');
    const run = simulate(mixed, applySettings(mixed, asked?.settings ?? []), inOrder);
    const lengths = (filter: string) =>
      new Set((run.exposures[1] ?? []).filter((e) => e.filter === filter).map((e) => e.endMs - e.startMs));
    expect([...lengths('Ha')]).toEqual([600_000]);
    expect(lengths('L').has(240_000)).toBe(false);
  });

  it('hold back subs that flexure draws out', () => {
    const course = twins();
    const [, wren] = course.trains;
    const flexed = {
      ...course,
      trains: course.trains.map((t) => (t === wren ? { ...t, longestSub: { ms: 250_000, why: 'flexure' } } : t)),
    };
    const outside = (seconds: number) =>
      boundsOf(flexed, [{ key: 'exposure', train: 'wren', seconds }], [], []).outside;
    expect(outside(300)).toEqual(['on wren flexure']);
    expect(outside(245)).toEqual([]);
    expect(boundsOf(flexed, [{ key: 'exposure', train: 'wren', seconds: 240 }], [], []).newDarks).toEqual([]);
  });

  it('are given for three trains, and for one', () => {
    for (const name of ['three-trains', 'one-train']) {
      const replayed = replayNight(namedNight(name));
      if (!isReplayed(replayed)) throw new Error(replayed.missing);
      expect(Object.keys(replayed.baseline.trains)).toHaveLength(name === 'one-train' ? 1 : 3);
      expect(replayed.whatIfs.length).toBeGreaterThan(12);
    }
  });
});
