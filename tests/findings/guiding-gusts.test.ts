import { describe, expect, it } from 'vitest';
import { guidingGusts } from '../../src/findings/guiding-gusts.js';
import { act, ask, found, guidingOf, lights, nightOf, quick } from './support.js';

const frames = lights('heron', { from: 0, seconds: 300, count: 40 });
const within = (t: number, from: number, to: number): boolean => t >= from * 303 && t < to * 303;
const night = (error: (t: number, i: number) => readonly [number, number]) =>
  nightOf({ frames, guiding: guidingOf(0, 40 * 303, 3, error) });

describe('spells of rough guiding', () => {
  it('are found where both axes rise together for a while', () => {
    const [finding] = found(
      guidingGusts,
      night((t, i) => (within(t, 20, 24) ? [quick(1.6, i), quick(1.4, i)] : [quick(0.4, i), quick(0.4, i)])),
    );
    expect(finding).toMatchObject({ frames: 4, costMs: 4 * 300_000, confidence: 'low' });
    expect(finding?.title).toMatch(/^Guiding was rough from \d\d:\d\d to \d\d:\d\d$/);
  });

  it('are the wind’s where the log held for wind, and nobody is advised to compare', () => {
    const error = (t: number, i: number) =>
      within(t, 20, 24) ? ([quick(1.6, i), quick(1.4, i)] as const) : ([quick(0.4, i), quick(0.4, i)] as const);
    const windy = nightOf({
      frames,
      guiding: guidingOf(0, 40 * 303, 3, error),
      activities: [act('hold', 40 * 303, 40 * 303 + 900, { why: 'wind: roof closed' })],
    });
    const [finding] = found(guidingGusts, windy);
    expect(finding?.advice).toMatch(/The holds in the log say it was the wind\.$/);
    expect(finding?.evidence.at(-1)).toMatch(/^the log records holds for wind at \d\d:\d\d$/);
  });

  it('are not found on a night that is rough for the most part: that is no wind', () => {
    const rough = night((t, i) => (within(t, 0, 30) ? [quick(1.2, i), quick(1.2, i)] : [quick(0.4, i), quick(0.4, i)]));
    const windy = night((t, i) =>
      within(t, 4, 8)
        ? [quick(3, i), quick(3, i)]
        : within(t, 0, 30)
          ? [quick(1.2, i), quick(1.2, i)]
          : [quick(0.4, i), quick(0.4, i)],
    );
    for (const one of [rough, windy]) expect(found(guidingGusts, one)).toEqual([]);
  });

  it('are separate spells with calm between them', () => {
    const finding = found(
      guidingGusts,
      night((t, i) =>
        within(t, 5, 7) || within(t, 30, 33) ? [quick(1.6, i), quick(1.4, i)] : [quick(0.4, i), quick(0.4, i)],
      ),
    )[0];
    expect(finding).toMatchObject({ title: 'Guiding was rough in 2 spells', frames: 5 });
  });

  it('are not found for one axis alone, for one single frame, nor for a whole rough night', () => {
    expect(
      found(
        guidingGusts,
        night((t, i) => (within(t, 20, 24) ? [quick(2.4, i), quick(0.4, i)] : [quick(0.4, i), quick(0.4, i)])),
      ),
    ).toEqual([]);
    expect(
      found(
        guidingGusts,
        night((t, i) => (within(t, 20, 21) ? [quick(1.6, i), quick(1.4, i)] : [quick(0.4, i), quick(0.4, i)])),
      ),
    ).toEqual([]);
    expect(
      found(
        guidingGusts,
        night((_, i) => [quick(1.6, i), quick(1.4, i)]),
      ),
    ).toEqual([]);
  });

  it('are not assessed without samples', () => {
    expect(ask(guidingGusts, nightOf({ frames }))).toEqual({ notAssessed: 'a guiding log with samples' });
  });
});
