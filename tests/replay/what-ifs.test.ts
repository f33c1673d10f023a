import { describe, expect, it } from 'vitest';
import { isReplayed, type Night, type Replay } from '../../src/model/index.js';
import { longestDitherCount } from '../../src/replay/best.js';
import { replayNight, replayWith } from '../../src/replay/index.js';
import { questionsOf } from '../../src/replay/what-ifs.js';
import { namedNight } from '../support/nights.js';
import { sampleNight } from '../support/sample-night.js';
import { courseOf } from './support.js';

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
    // 3 × 303 s ÷ 4 − 3 s = 224.25 s: a train that waits is ready a moment before, one that does not a moment after.
    expect(seconds({ patienceMs: { wren: 30_000 } })[0]).toBe(224);
    expect(seconds({ patienceMs: { wren: 0 } })[0]).toBe(226);
    expect(seconds({ ownCount: { wren: 4 } })[0]).toBe(224);
    expect(seconds()).toContain(300);
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
    expect(together?.outcome.trains.wren?.spoiltFrames).toBeLessThan(replay.baseline.trains.wren?.spoiltFrames ?? 0);
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

  it('keep the dither count within what a filter’s frames allow', () => {
    // 36 frames a filter at a dozen places: every third. 120 frames: every tenth.
    const withFrames = (frames: number) => {
      const course = twins();
      return { ...course, trains: course.trains.map((t) => ({ ...t, blocks: [{ ...t.blocks[0]!, frames }] })) };
    };
    expect(longestDitherCount(withFrames(36))).toBe(3);
    expect(longestDitherCount(withFrames(120))).toBe(10);
    expect(longestDitherCount(withFrames(5))).toBe(3);
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
