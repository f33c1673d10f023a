import { describe, expect, it } from 'vitest';
import { guidingAltitude, rankCorrelation } from '../../src/findings/guiding-altitude.js';
import { ask, curve, found, guidingOf, lights, nightOf, place, quick, T0 } from './support.js';

const frames = lights('heron', { from: 0, seconds: 300, count: 40 });
/** From 70° down to 25° in the course of the night. */
const altitudeAt = (seconds: number): number => 70 - (45 * seconds) / (40 * 303);
const skyOf = (f: { exposure: { startMs: number } }) =>
  place(f.exposure.startMs, altitudeAt((f.exposure.startMs - T0) / 1000));
const night = (rms: (seconds: number) => number) =>
  nightOf({
    frames,
    skyOf,
    curves: [curve('NGC 281', 0, 40 * 303, altitudeAt)],
    guiding: guidingOf(0, 40 * 303, 3, (t, i) => [quick(rms(t), i), quick(rms(t), i + 1)]),
  });

describe('guiding rough at low altitude', () => {
  it('is found where the error grows as the target sinks', () => {
    const [finding] = found(
      guidingAltitude,
      night((t) => (altitudeAt(t) < 35 ? 1.4 : 0.7)),
    );
    expect(finding?.title).toBe('Guiding was 2.0 times as rough below 35°');
    const low = frames.filter((f) => altitudeAt((f.exposure.startMs - T0) / 1000) < 35).length;
    expect(Math.abs((finding?.frames ?? 0) - low)).toBeLessThanOrEqual(1);
  });

  it('is not found where it is as rough high up', () => {
    expect(
      found(
        guidingAltitude,
        night(() => 1.4),
      ),
    ).toEqual([]);
  });

  it('is not found where no frame was harmed', () => {
    expect(
      found(
        guidingAltitude,
        night((t) => (altitudeAt(t) < 35 ? 0.6 : 0.3)),
      ),
    ).toEqual([]);
  });

  it('is not assessed without the targets’ places', () => {
    expect(ask(guidingAltitude, nightOf({ frames, guiding: guidingOf(0, 600, 3, () => [1, 1]) }))).toEqual({
      notAssessed: 'the site and the targets’ coordinates',
    });
  });
});

describe('rank correlation', () => {
  it('is 1 and −1 where order agrees and disagrees throughout, whatever the distances', () => {
    expect(
      rankCorrelation([
        [1, 10],
        [2, 11],
        [30, 400],
      ]),
    ).toBe(1);
    expect(
      rankCorrelation([
        [1, 9],
        [2, 8],
        [30, -400],
      ]),
    ).toBe(-1);
  });
});
