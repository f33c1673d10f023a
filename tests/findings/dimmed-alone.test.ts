import { describe, expect, it } from 'vitest';
import { dimmedAlone } from '../../src/findings/dimmed-alone.js';
import type { Night } from '../../src/model/index.js';
import { dimmedNight } from './dimmed.js';
import { ask, found, lights, minutes, nightOf } from './support.js';

/** Ten subs of both trains; wren's from the sixth on have a share of its light, heron's too where it was cloud. */
function nightWith(wren: number, heron = 0.98): Night {
  const frames = ['heron', 'wren'].flatMap((train) => lights(train, { from: 0, seconds: 300, count: 10 }));
  const night = nightOf({ frames });
  const shareOf = (id: string, i: number): number => (i < 5 ? 0.97 : id.startsWith('wren') ? wren : heron);
  const orderOf = (id: string, train: string): number =>
    frames.filter((f) => f.train === train).findIndex((f) => f.id === id);
  return dimmedNight(night, frames, ({ id, train }) => shareOf(id, orderOf(id, train)), 3000);
}

describe('light lost on one train alone', () => {
  it('is found with what arrived on both, and its frames as the cost', () => {
    const [finding, ...more] = found(dimmedAlone, nightWith(0.55));
    expect(more).toEqual([]);
    expect(finding?.title).toBe('wren’s stars lost light in 5 frames while another train’s did not');
    expect(finding?.evidence[0]).toMatch(/: 55 % of the light of wren’s best frames, 98 % on another train$/);
    expect(minutes(finding?.costMs)).toBeCloseTo(25, 6);
    expect(finding?.winMs).toBeUndefined();
    expect(finding?.advice).toMatch(/^Look for dew or frost on wren/);
  });

  it('is found beside a cloud of another hour, which took light from both', () => {
    const frames = ['heron', 'wren'].flatMap((train) => lights(train, { from: 0, seconds: 300, count: 20 }));
    const orderOf = (id: string, train: string): number =>
      frames.filter((f) => f.train === train).findIndex((f) => f.id === id);
    const shareAt = (train: string, i: number): number => (i < 8 ? 0.5 : train === 'wren' && i > 15 ? 0.55 : 0.98);
    const night = dimmedNight(nightOf({ frames }), frames, ({ id, train }) => shareAt(train, orderOf(id, train)), 3000);
    expect(found(dimmedAlone, night).map(({ title }) => title)).toEqual([
      'wren’s stars lost light in 4 frames while another train’s did not',
    ]);
  });

  it('is not found under a cloud, which takes it from both, or where all arrived', () => {
    expect(found(dimmedAlone, nightWith(0.55, 0.6))).toEqual([]);
    expect(found(dimmedAlone, nightWith(0.9))).toEqual([]);
  });

  it('is not assessed where no stars were measured', () => {
    expect(ask(dimmedAlone, nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) }))).toHaveProperty(
      'notAssessed',
    );
  });
});
