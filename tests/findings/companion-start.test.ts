import { describe, expect, it } from 'vitest';
import { companionStart } from '../../src/findings/companion-start.js';
import { KEEPS_TO_NONE, type Night } from '../../src/model/index.js';
import { act, ask, found, HERON, HOUR, lights, MINUTE, minutes, nightOf } from './support.js';

const pointing = [
  act('slew', 0, 40),
  act('centre', 40, 90),
  act('guiding-start', 90, 110),
  act('guiding-on', 110, 4 * HOUR),
];
const heron = lights('heron', { from: 110, seconds: 300, count: 30 });
const wrenFrom = (from: number) => lights('wren', { from, seconds: 240, count: 30 });

describe('the start of the companion', () => {
  it('is found too early when it exposes while the mount still points', () => {
    const [finding] = found(companionStart, nightOf({ frames: [...heron, ...wrenFrom(50)], activities: pointing }));
    expect(finding).toMatchObject({
      title: 'wren began 1 frame before the mount had come to rest',
      costMs: 240_000,
      frames: 1,
    });
    expect(finding?.links?.[0]?.anchor).toMatch(/^frame-wren-/);
  });

  it('is found far too late, beyond what is usual', () => {
    const [finding] = found(
      companionStart,
      nightOf({ frames: [...heron, ...wrenFrom(110 + 45 * MINUTE)], activities: pointing }),
    );
    expect(minutes(finding?.costMs)).toBeCloseTo(42, 6);
    expect(finding?.evidence[0]).toMatch(/heron exposed from 21:01, wren from 21:46/);
  });

  it('is its own affair where it dithers by itself', () => {
    const night = nightOf({ frames: [...heron, ...wrenFrom(110 + 45 * MINUTE)], activities: pointing });
    const alone = { train: 'wren', source: 'headers', by: KEEPS_TO_NONE } as Night['timeline']['clocks'][number];
    expect(found(companionStart, { ...night, timeline: { ...night.timeline, clocks: [alone] } })).toEqual([]);
  });

  it('is found late after a pointing in the middle of the night too', () => {
    const again = [act('slew', 2 * HOUR, 2 * HOUR + 40), act('centre', 2 * HOUR + 40, 2 * HOUR + 80)];
    const frames = [
      ...lights('heron', { from: 110, seconds: 300, count: 20 }),
      ...lights('heron', { from: 2 * HOUR + 100, seconds: 300, count: 20 }),
      ...lights('wren', { from: 260, seconds: 240, count: 20 }),
      ...lights('wren', { from: 2 * HOUR + 100 + 30 * MINUTE, seconds: 240, count: 10 }),
    ];
    const [finding] = found(companionStart, nightOf({ frames, activities: [...pointing, ...again] }));
    expect(minutes(finding?.costMs)).toBeCloseTo(27, 6);
  });

  it('is not found two or three minutes after the pilot', () => {
    expect(
      found(companionStart, nightOf({ frames: [...heron, ...wrenFrom(110 + 2.5 * MINUTE)], activities: pointing })),
    ).toEqual([]);
  });

  it('is not assessed with one train', () => {
    expect(ask(companionStart, nightOf({ frames: heron, trains: [HERON] }))).toEqual({ notAssessed: 'a second train' });
  });
});
