import { describe, expect, it } from 'vitest';
import { refocusTooSeldom } from '../../src/findings/refocus-too-seldom.js';
import { durationMs, sum, type WorthAssessment } from '../../src/model/index.js';
import { act, ask, found, lights, nightOf, place, sizeOf } from './support.js';

const sized = (size: (i: number) => number, from = 0, count = 30, filter = 'Ha') =>
  lights('heron', {
    from,
    seconds: 300,
    count,
    filter,
    header: (i) => ({ starSize: sizeOf(size(i)), focusTemperatureC: 14 - 0.1 * i }),
  });

describe('stars that grow without a refocus', () => {
  it('are found with what they cost point sources: the square of the size', () => {
    const size = (i: number): number => 2 * (1 + 0.01 * i);
    const frames = sized(size);
    const [finding] = found(refocusTooSeldom, nightOf({ frames }));
    // The base is the middle one of the first three.
    const grown = frames.map((_, i) => size(i) / size(1) - 1);
    const first = grown.findIndex((g) => g > 0.1);
    expect(finding?.frames).toBe(30 - first);
    const cost = sum(
      frames.map((f, i) => (i < first ? 0 : durationMs(f.exposure) * (1 - 1 / (1 + (grown[i] ?? 0)) ** 2))),
    );
    expect(finding?.costMs).toBe(Math.round(cost));
    expect(finding?.advice).toMatch(/when its stars have grown by 10 %\. On this night that took \d\.\d °C/);
    expect(finding?.confidence).toBe('low');
    // Nor is it known that it was not the air mass.
    expect(finding).not.toHaveProperty('winMs');
    expect(finding?.evidence.join(' ')).toContain('no air mass is known');
  });

  it('name dew first if the light dropped as well', () => {
    const frames = sized((i) => 2 * (1 + 0.01 * i));
    const night = nightOf({ frames, skyOf: (f) => place(f.exposure.startMs, 50) });
    const through = (last: number) =>
      found(refocusTooSeldom, {
        ...night,
        worth: {
          frames: Object.fromEntries(
            frames.map(({ id }, i) => [
              id,
              { transparency: 1 - ((1 - last) * i) / 29, transparencyFrom: 'measured', extinctionPerAirmass: 0 },
            ]),
          ),
          totals: {},
        } as unknown as WorthAssessment,
      })[0];
    expect(through(0.1)?.advice).toMatch(/^Look for dew on heron first\. Refocus heron/);
    expect(through(0.1)?.evidence.join(' ')).toContain('dew or haze makes stars larger too');
    expect(through(0.9)?.advice).toMatch(/^Refocus heron/);
  });

  it('are not found where they stay as they are, nor for one bad frame', () => {
    expect(found(refocusTooSeldom, nightOf({ frames: sized(() => 2.1) }))).toEqual([]);
    expect(found(refocusTooSeldom, nightOf({ frames: sized((i) => (i === 20 ? 3.4 : 2.1)) }))).toEqual([]);
  });

  it('are found where they were small again at once and no log tells of a refocus; a knock is another matter', () => {
    // Frames 12 to 19 grow to twice the size; then somebody focused by hand.
    const grown = (i: number, by: (k: number) => number): number => 2 * (i >= 12 && i < 20 ? by(i - 11) : 1);
    const frames = sized((i) => grown(i, (k) => 1 + 0.125 * k));
    const [finding, ...rest] = found(
      refocusTooSeldom,
      nightOf({ frames, skyOf: (f) => place(f.exposure.startMs, 50) }),
    );
    expect(rest).toEqual([]);
    expect(finding?.frames).toBe(8);
    // A refocus at each tenth takes time as well.
    expect(finding?.winMs).toBeGreaterThanOrEqual(0);
    expect(finding?.winMs).toBeLessThan(finding?.costMs ?? 0);
    expect(finding?.evidence[0]).toMatch(/; small again from 22:4\d on, which no log explains$/);
    expect(found(refocusTooSeldom, nightOf({ frames: sized((i) => grown(i, () => 2)) }))).toEqual([]);
    // Seeing goes as it came.
    expect(found(refocusTooSeldom, nightOf({ frames: sized((i) => 2 + Math.exp(-(((i - 15) / 3) ** 2))) }))).toEqual(
      [],
    );
  });

  it('are not found where a refocus came in time', () => {
    const size = (i: number): number => 2 * (1 + 0.008 * (i % 10));
    const frames = [0, 1, 2].flatMap((k) => sized(size, k * 3200, 10));
    const activities = [1, 2].map((k) =>
      act('focus', k * 3200 - 160, k * 3200 - 20, { train: 'heron', facts: { ok: true } }),
    );
    expect(found(refocusTooSeldom, nightOf({ frames, activities }))).toEqual([]);
  });

  it('are not made small by a refocus that failed, and what it failed for is to be looked at', () => {
    const size = (i: number): number => 2 * (1 + 0.012 * i);
    const frames = sized(size, 0, 30);
    const tries = [3000, 6000].map((at) => act('focus', at - 2, at, { train: 'heron', facts: { ok: false } }));
    const night = nightOf({ frames, activities: tries, skyOf: (f) => place(f.exposure.startMs, 50) });
    const [finding, ...rest] = found(refocusTooSeldom, night);
    expect(rest).toEqual([]);
    const first = frames.findIndex((_, i) => size(i) / size(1) - 1 > 0.1);
    expect(finding?.frames).toBe(30 - first);
    expect(finding?.title).toContain('without a refocus that worked');
    expect(finding?.advice).toMatch(/^Find out why heron could not be focused/);
    expect(finding?.evidence.join(' ')).toMatch(/refocus(?:es)? failed meanwhile, at /);
    expect(finding).not.toHaveProperty('winMs');
  });

  it('do not take one filter’s stars for another’s', () => {
    const frames = [...sized(() => 2, 0, 12, 'Ha'), ...sized(() => 2.6, 12 * 303, 12, 'OIII')];
    expect(found(refocusTooSeldom, nightOf({ frames }))).toEqual([]);
  });

  it('leave out growth that the air mass explains', () => {
    // A setting target: the stars grow as seeing does, with the air mass to the power of 0.6.
    const altitude = (i: number): number => 70 - 1.4 * i;
    const airmass = (i: number): number => 1 / Math.sin((altitude(i) * Math.PI) / 180);
    const frames = sized((i) => 2 * airmass(i) ** 0.6);
    const skyOf = (f: { id: string; exposure: { startMs: number } }) =>
      place(f.exposure.startMs, altitude(frames.findIndex((x) => x.id === f.id)));
    expect(found(refocusTooSeldom, nightOf({ frames, skyOf }))).toEqual([]);
    expect(found(refocusTooSeldom, nightOf({ frames }))).toHaveLength(1);
  });

  it('are not assessed without star sizes', () => {
    expect(ask(refocusTooSeldom, nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 5 }) }))).toEqual({
      notAssessed: 'star sizes, in the headers or measured in the pixels',
    });
  });
});
