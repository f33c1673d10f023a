import { describe, expect, it } from 'vitest';
import { lowTarget } from '../../src/findings/low-target.js';
import { ask, curve, found, HOUR, lights, nightOf, place, T0 } from './support.js';

const frames = lights('heron', { from: 0, seconds: 300, count: 36 });
const rising = (s: number): number => 20 + (20 * s) / (3 * HOUR);
const skyWith = (altitudeAt: (s: number) => number) => (f: { exposure: { startMs: number; endMs: number } }) =>
  place(f.exposure.startMs, altitudeAt(((f.exposure.startMs + f.exposure.endMs) / 2 - T0) / 1000));
const night = (altitudeAt: (s: number) => number, others: ReturnType<typeof curve>[] = []) =>
  nightOf({ frames, skyOf: skyWith(altitudeAt), curves: [curve('NGC 281', -HOUR, 4 * HOUR, altitudeAt), ...others] });

describe('a target too low', () => {
  it('is found with the time at which it would have stood high enough', () => {
    const [finding] = found(lowTarget, night(rising));
    const low = frames.filter((f) => rising(((f.exposure.startMs + f.exposure.endMs) / 2 - T0) / 1000) < 25).length;
    expect(finding).toMatchObject({ title: 'NGC 281 was begun too low', frames: low, costMs: low * 300_000 });
    // 25° are reached after 45 minutes, at 21:45.
    expect(finding?.advice).toContain('Begin NGC 281 at 21:45');
    expect(finding?.winMs).toBeUndefined();
  });

  it('names a target that stood high enough meanwhile, and wins its time less the turn', () => {
    const [finding] = found(lowTarget, night(rising, [curve('IC 1396', -HOUR, 4 * HOUR, () => 60)]));
    expect(finding?.advice).toContain('and image IC 1396 before');
    // One more turn to a target takes five minutes where the night has none to go by.
    expect(finding?.winMs).toBe((finding?.costMs ?? 0) - 300_000);
  });

  it('wins all of its time where the mount came from that target: the turn is the same, and later', () => {
    const before = lights('heron', { from: -3600, seconds: 300, count: 10 }).map((f) => ({ ...f, target: 'IC 1396' }));
    const altitudeAt = rising;
    const [finding] = found(
      lowTarget,
      nightOf({
        frames: [...before, ...frames],
        skyOf: (f) => place(f.exposure.startMs, f.exposure.startMs < T0 ? 60 : skyWith(altitudeAt)(f).altitudeDeg),
        curves: [curve('NGC 281', -HOUR, 4 * HOUR, altitudeAt), curve('IC 1396', -HOUR, 4 * HOUR, () => 60)],
      }),
    );
    expect(finding?.winMs).toBe(finding?.costMs);
  });

  it('is found at the end of its night too', () => {
    const [finding] = found(
      lowTarget,
      night((s) => 60 - rising(s)),
    );
    expect(finding?.title).toBe('NGC 281 was imaged until it was too low');
  });

  it('climbs though it was begun before its curve does, and is said to have stood a tenth below its limit', () => {
    const climbing = (s: number): number => 24.9 + s / 3600;
    const early = nightOf({
      frames: frames.slice(0, 1),
      skyOf: skyWith(() => 24.9),
      curves: [curve('NGC 281', 600, 4 * HOUR, climbing)],
    });
    const [finding] = found(lowTarget, early);
    expect(finding?.title).toBe('NGC 281 was begun too low');
    expect(finding?.evidence[0]).toContain('at 24.9° with a limit of 25°');
  });

  it('that no moment of the night has above its limit is to be replaced, not begun later', () => {
    // Highest in the middle of the frames, at 23°.
    const hump = (s: number): number => 23 - Math.abs(s - 1.5 * HOUR) / HOUR;
    const all = found(lowTarget, night(hump, [curve('IC 1396', -HOUR, 4 * HOUR, () => 60)]));
    expect(all.map(({ title, frames: n, costMs }) => [title, n, costMs])).toEqual([
      ['NGC 281 was below its limit all night', 36, 36 * 300_000],
    ]);
    expect(all[0]?.evidence).toContain('in the dark it was highest at 22:30, at 23.0°');
    expect(all[0]?.advice).toContain('Instead of NGC 281, image IC 1396.');
  });

  it('is not found above the limit', () => {
    expect(
      found(
        lowTarget,
        night(() => 40),
      ),
    ).toEqual([]);
  });

  it('is not assessed where its place is unknown', () => {
    expect(ask(lowTarget, nightOf({ frames }))).toEqual({ notAssessed: 'the site and the targets’ coordinates' });
  });
});
