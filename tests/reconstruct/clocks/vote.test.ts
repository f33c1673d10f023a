import { describe, expect, it } from 'vitest';
import { excludedBySky } from '../../../src/reconstruct/clocks/daylight.js';
import { rightTime, type ComparedClock } from '../../../src/reconstruct/clocks/vote.js';
import { header } from '../../support/events.js';

const HOUR = 3_600_000;

function clock(train: string, aheadMs: number, isVouched = false): ComparedClock {
  return { train, source: 'headers', aheadMs, uncertaintyMs: 100, isVouched };
}

describe('the right time among clocks', () => {
  it('is what most trains tell, and the reference’s where two differ', () => {
    expect(rightTime([clock('heron', 0), clock('wren', HOUR), clock('owl', HOUR)])).toEqual({
      aheadMs: HOUR,
      isAbsolute: true,
    });
    expect(rightTime([clock('heron', 0), clock('wren', HOUR)])).toEqual({ aheadMs: 0, isAbsolute: false });
  });

  it('is the one that the sky leaves, whichever train’s it is', () => {
    const two = [clock('heron', 0), clock('wren', HOUR)];
    expect(rightTime(two, (ms) => ms === 0)).toMatchObject({ aheadMs: HOUR, isAbsolute: true });
    expect(rightTime(two, (ms) => ms === HOUR)).toMatchObject({ aheadMs: 0, isAbsolute: true });
    expect(rightTime(two, (ms) => ms === 0).by).toContain('daylight');
  });

  it('is not the sky’s to say where it leaves none, or more than one', () => {
    const two = [clock('heron', 0), clock('wren', HOUR)];
    expect(rightTime(two, () => true)).toEqual({ aheadMs: 0, isAbsolute: false });
    const three = [...two, clock('owl', 2 * HOUR)];
    expect(rightTime(three, (ms) => ms === 2 * HOUR)).toEqual({ aheadMs: 0, isAbsolute: false });
  });

  it('is that of headers that vouch for their clock, unless two of them differ', () => {
    expect(rightTime([clock('heron', 0), clock('wren', HOUR, true)])).toMatchObject({
      aheadMs: HOUR,
      isAbsolute: true,
    });
    expect(rightTime([clock('heron', 0, true), clock('wren', HOUR, true)])).toEqual({ aheadMs: 0, isAbsolute: false });
  });
});

describe('an offset', () => {
  const lights = Array.from({ length: 100 }, (_, i) => ({
    header: header(`${i}.fits`, '20:00:00', 60),
    atMs: i * 60_000,
  }));
  const until = (minutes: number) => (_: unknown, atMs: number) => atMs < minutes * 60_000;

  it('is excluded by three lights in daylight, not by tests at dusk', () => {
    expect(excludedBySky(lights, until(3))(0)).toBe(true);
    expect(excludedBySky(lights, until(2))(0)).toBe(false);
    expect(excludedBySky(lights, until(3))(HOUR)).toBe(false);
  });

  it('is never excluded where the site is not known', () => {
    expect(excludedBySky(lights, undefined)(0)).toBe(false);
  });
});
