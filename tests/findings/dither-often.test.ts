import { describe, expect, it } from 'vitest';
import { ditherOften } from '../../src/findings/dither-often.js';
import { findAll } from '../../src/findings/index.js';
import { replayNight } from '../../src/replay/index.js';
import { ask, dithered, found, HERON, lights, minutes, nightOf } from './support.js';

const night = (frames: number, blocks: number, filter = (_block: number) => 'Ha') => {
  const plan = dithered({ blocks, trains: { heron: { seconds: 120, count: frames } }, move: 4, settle: 16 });
  const named = plan.frames.map((f, i) => ({ ...f, filter: filter(Math.floor(i / frames)) }));
  return nightOf({ frames: named, activities: plan.activities, trains: [HERON] });
};

describe('dithers in excess', () => {
  it('are found where every frame is dithered and the filter has many', () => {
    const [finding] = found(ditherOften, night(1, 90));
    // Every third would do: 60 of 90 dithers of 20 s are in excess.
    expect(finding?.title).toBe('90 dithers, where 30 would have been enough');
    expect(minutes(finding?.costMs)).toBeCloseTo((60 * 20) / 60, 6);
    expect(finding?.advice).toContain('Dither every 3 frames');
  });

  it('are not found where every third frame is dithered', () => {
    expect(found(ditherOften, night(3, 30))).toEqual([]);
  });

  it('are left alone where they come as seldom as is usual and would win next to nothing', () => {
    // Six hours of two trains in step, a dither of a quarter of a minute every third sub of five minutes.
    const plan = dithered({
      blocks: 24,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3 } },
      move: 2,
      settle: 12,
    });
    const plain = nightOf({ frames: plan.frames, activities: plan.activities });
    expect(found(ditherOften, { ...plain, replay: replayNight(plain) })).toEqual([]);
    // The same where each of them takes a minute and a half.
    const slow = dithered({
      blocks: 24,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3 } },
      move: 2,
      settle: 90,
    });
    const long = nightOf({ frames: slow.frames, activities: slow.activities });
    expect(found(ditherOften, { ...long, replay: replayNight(long) })).toHaveLength(1);
  });

  it('are not found where a filter has too few frames to spare any', () => {
    expect(
      found(
        ditherOften,
        night(1, 90, (block) => `filter ${Math.floor(block / 15)}`),
      ),
    ).toEqual([]);
  });

  it('ask for every second frame where the count allows no more', () => {
    expect(
      found(
        ditherOften,
        night(1, 90, (block) => (block < 60 ? 'L' : 'R')),
      )[0]?.advice,
    ).toContain('Dither every 2 frames');
  });

  it('win what the replay wins', () => {
    const plain = night(1, 90);
    const replay = replayNight(plain);
    const [finding] = found(ditherOften, { ...plain, replay });
    if ('missing' in replay) throw new Error('not replayed');
    // The very rule that the best together has, as the page says it there.
    const every = Number(/^Dither every (\d+) frames/.exec(finding?.advice ?? '')?.[1]);
    expect(replay.best?.settings).toContain(`dither-every=${every}`);
    const same = replay.whatIfs.find((w) => w.id === `dither-every-${every}`);
    expect(same?.outside).toEqual([]);
    expect(finding).toMatchObject({ winMs: Math.round(same?.gain.meanMs ?? NaN), confidence: 'high' });
  });

  it('cost the frames of another train that nothing holds, and promise them with it', () => {
    const heron = dithered({ blocks: 80, trains: { heron: { seconds: 120, count: 1 } }, move: 4, settle: 14 });
    const frames = [...heron.frames, ...lights('wren', { from: 0, seconds: 300, count: 36 })];
    const plain = nightOf({ frames, activities: heron.activities });
    const night = { ...plain, replay: replayNight(plain) };
    const [finding] = found(ditherOften, night);
    const every = Number(/^Dither every (\d+) frames/.exec(finding?.advice ?? '')?.[1]);
    // A dither every 141 s, for the last 18 of them.
    const through = (from: number, to: number): number[] =>
      Array.from({ length: 80 }, (_, i) => i).filter((i) => 141 * i + 123 < to - 1 && 141 * (i + 1) > from + 1);
    const won = lights('wren', { from: 0, seconds: 300, count: 36 }).filter(({ exposure: { startMs } }) => {
      const from = (startMs - (plain.accounts.lights[0]?.exposure.startMs ?? 0)) / 1000;
      const own = through(from, from + 300);
      return own.length > 0 && own.every((i) => Math.floor((i + 1) / every) === Math.floor(i / every));
    });
    expect(won.length).toBeGreaterThan(15);
    expect(finding?.evidence).toContain(`without them ${won.length} more frames would have been kept`);
    expect(finding?.costMs).toBeGreaterThan(300_000 * won.length);
    const [first] = findAll(night).ranked;
    // Whichever of the two remedies comes first, at least the gain of fewer dithers is promised.
    expect(first?.advice).toContain(`Dither every ${every} frames`);
    expect(first?.winMs).toBeGreaterThanOrEqual(Math.min(finding?.winMs ?? NaN, first?.costMs ?? NaN) - 1);
  });

  it('are not assessed without dithers', () => {
    expect(ask(ditherOften, nightOf({ frames: lights('heron', { from: 0, seconds: 60, count: 4 }) }))).toEqual({
      notAssessed: 'dithers in the log',
    });
  });
});
