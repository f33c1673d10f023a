import { describe, expect, it } from 'vitest';
import { dimmedTogether } from '../../src/findings/dimmed-together.js';
import type { Frame, Night } from '../../src/model/index.js';
import { dimmedNight } from './dimmed.js';
import { ask, found, lights, minutes, nightOf, place } from './support.js';

/** Twelve subs of both trains; the share of its best light that each frame of a train has. */
function nightWith(shares: Readonly<Record<string, (i: number) => number>>): Night {
  const frames = Object.keys(shares).flatMap((train) => lights(train, { from: 0, seconds: 300, count: 12 }));
  const skyOf = ({ exposure }: Frame) => place(exposure.startMs, 40, { azimuthDeg: 131 });
  const night = nightOf({ frames, skyOf });
  const flux = (frame: { readonly id: string; readonly train: string }): number =>
    shares[frame.train]!(frames.filter(({ train }) => train === frame.train).findIndex(({ id }) => id === frame.id));
  return dimmedNight(night, frames, flux, 3600);
}

const within = (from: number, to: number) => (i: number) => (i >= from && i < to ? 0.5 : 0.97);
const clear = () => 0.97;

describe('light lost on all trains', () => {
  it('within a target is a cloud, which asks for nothing', () => {
    const [finding, ...more] = found(dimmedTogether, nightWith({ heron: within(4, 7), wren: within(4, 7) }));
    expect(more).toEqual([]);
    expect(finding?.title).toBe('NGC 281’s stars lost light in 6 frames of heron and wren');
    expect(minutes(finding?.costMs)).toBeCloseTo(30, 6);
    expect(finding?.winMs).toBe(0);
    expect(finding?.evidence[0]).toMatch(/: down to 50 % of the light of the best frames$/);
    expect(finding?.evidence.join()).toContain('cloud or haze');
    expect(finding?.advice).toMatch(/^Nothing to change/);
  });

  it('where a target begins or ends may be something in the way, and says where to look', () => {
    const [begun] = found(dimmedTogether, nightWith({ heron: within(0, 3), wren: within(0, 3) }));
    expect(begun?.title).toMatch(/ when it was begun$/);
    expect(begun?.evidence.join()).toContain('altitude 40°, azimuth 131° at 21:00');
    expect(begun?.advice).toContain('begin NGC 281 later');
    expect(begun?.advice).toContain('horizon:');
    const [ended] = found(dimmedTogether, nightWith({ heron: within(9, 12) }));
    expect(ended?.title).toMatch(/ at its end$/);
    expect(ended?.advice).toContain('leave NGC 281 sooner');
  });

  it('is two clouds where a quarter of an hour was clear between', () => {
    const twice = (i: number): number => Math.min(within(1, 4)(i), within(8, 11)(i));
    expect(found(dimmedTogether, nightWith({ heron: twice, wren: twice }))).toHaveLength(2);
  });

  it('is not found on one train alone, in two frames, or where all arrived', () => {
    expect(found(dimmedTogether, nightWith({ heron: clear, wren: within(4, 9) }))).toEqual([]);
    expect(found(dimmedTogether, nightWith({ heron: within(4, 5), wren: within(4, 5) }))).toEqual([]);
    expect(found(dimmedTogether, nightWith({ heron: clear, wren: clear }))).toEqual([]);
  });

  it('is not assessed where no stars were measured', () => {
    const night = nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) });
    expect(ask(dimmedTogether, night)).toHaveProperty('notAssessed');
  });
});
