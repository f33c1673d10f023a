import { describe, expect, it } from 'vitest';
import { ditherThrough } from '../../src/findings/dither-through.js';
import { replayNight } from '../../src/replay/index.js';
import { act, ask, dithered, found, HERON, lights, nightOf } from './support.js';

const heron = dithered({ blocks: 10, trains: { heron: { seconds: 300, count: 3 } } });
const night = () =>
  nightOf({
    frames: [...heron.frames, ...lights('wren', { from: 0, seconds: 250, count: 36 })],
    activities: heron.activities,
  });

describe('dithers under an open shutter', () => {
  it('are found with every frame they cost', () => {
    const plain = night();
    const open = plain.accounts.dithers.filter((d) =>
      plain.accounts.lights.some(
        (f) => f.train === 'wren' && f.exposure.startMs < d.beginMs && f.exposure.endMs > d.beginMs + 1000,
      ),
    );
    const [finding] = found(ditherThrough, plain);
    expect(finding?.frames).toBe(open.length);
    expect(open.length).toBeGreaterThan(7);
    expect(finding?.costMs).toBe(open.length * 250_000);
  });

  it('win what the replay wins by waiting, waits and all', () => {
    const plain = night();
    const [finding] = found(ditherThrough, { ...plain, replay: replayNight(plain) });
    expect(finding?.evidence.join()).toContain('replayed with dithers that wait');
    expect(finding?.winMs).toBeLessThan(finding?.costMs ?? 0);
    expect(finding?.winMs).toBeGreaterThan(0);
  });

  it('that are few are attributed to one train: the others waited', () => {
    const plan = dithered({
      blocks: 10,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3 } },
    });
    const stray = [
      act('dither-move', 400, 404, { causedBy: 'heron', facts: { pixels: 5 } }),
      act('settling', 404, 414, { causedBy: 'heron' }),
    ];
    const findings = found(ditherThrough, nightOf({ ...plan, activities: [...plan.activities, ...stray] }));
    expect(findings.map(({ frames }) => frames)).toEqual([1, 1]);
    expect(findings[0]?.advice).toMatch(
      /^The other dithers found heron’s shutter closed: find out what started this one: a hand/,
    );
  });

  it('are not found where dithers wait, nor for a slew', () => {
    expect(
      found(
        ditherThrough,
        nightOf(
          dithered({ blocks: 5, trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3 } } }),
        ),
      ),
    ).toEqual([]);
    const slewed = dithered({ blocks: 1, trains: { heron: { seconds: 300, count: 3 } } });
    const frames = [...slewed.frames, ...lights('wren', { from: 1000, seconds: 250, count: 3 })];
    expect(
      found(ditherThrough, nightOf({ frames, activities: [...slewed.activities, act('slew', 1100, 1140)] })),
    ).toEqual([]);
  });

  it('of the only train win its subs, less the time that the dithers then take', () => {
    const alone = nightOf({
      frames: lights('heron', { from: 0, seconds: 250, count: 36 }),
      activities: heron.activities,
      trains: [HERON],
    });
    const [finding] = found(ditherThrough, alone);
    expect(finding?.title).toBe('Dithers moved the mount during 9 subs of heron');
    expect(finding?.costMs).toBe(9 * 250_000);
    // Four seconds of moving and ten of settling each.
    expect(finding?.winMs).toBe(9 * (250_000 - 14_000));
    expect(finding?.advice).toMatch(/^Let each dither wait until heron’s exposure has ended/);
    expect(finding?.advice).not.toContain('computers');
    expect(found(ditherThrough, nightOf({ ...heron, trains: [HERON] }))).toEqual([]);
  });

  it('are not assessed without dithers', () => {
    expect(ask(ditherThrough, nightOf({ frames: night().accounts.lights }))).toEqual({
      notAssessed: 'dithers in the log',
    });
  });
});
