import { describe, expect, it } from 'vitest';
import { unusedDarkness } from '../../src/findings/unused-darkness.js';
import { CAUTION, type DarkWindow, type SkyNight } from '../../src/model/index.js';
import { act, ask, curve, found, HOUR, lights, MINUTE, minutes, nightOf, span } from './support.js';
import { altered } from '../support/altered.js';

const window = span(0, 6 * HOUR);
const twilight = { duskMs: null, dawnMs: null };
const sky = (kind: DarkWindow['kind'] = 'nautical'): SkyNight => ({
  sunsetMs: null,
  sunriseMs: null,
  twilight: { civil: twilight, nautical: twilight, astronomical: twilight },
  window: { span: window, kind, asked: 'nautical', sunMinimumDeg: -40, sunMinimumMs: window.startMs },
  moon: { illumination: 0, waxing: true, riseMs: null, setMs: null },
});
const up = (from = 0, to = 6 * HOUR) => [curve('NGC 281', from, to, () => 50)];
/** Lights from a minute on to another. */
const imaged = (train: string, from: number, to: number) =>
  lights(train, { from: from * MINUTE, seconds: 297, pause: 3, count: Math.floor((to - from) / 5) });

describe('darkness unused', () => {
  it('is found at dusk, on both trains, less the time to set up', () => {
    const night = nightOf({
      frames: [...imaged('heron', 40, 360), ...imaged('wren', 43, 360)],
      window,
      almanac: sky(),
      curves: up(),
    });
    const [finding, ...rest] = found(unusedDarkness, night);
    expect(minutes(finding?.costMs)).toBeCloseTo(83, 1);
    expect(minutes(finding?.winMs)).toBeCloseTo(73, 1);
    expect(finding).toMatchObject({
      title: '43 min of darkness had gone before the first exposure',
      confidence: 'medium',
    });
    expect(rest).toEqual([]);
  });

  it('is found at dawn', () => {
    const [finding] = found(
      unusedDarkness,
      nightOf({ frames: imaged('heron', 5, 300), window, almanac: sky(), curves: up() }),
    );
    expect(finding?.title).toMatch(/of darkness were left after the last exposure$/);
    expect(minutes(finding?.costMs)).toBeCloseTo(60, 0);
    // A longer sequence closes mount and roof by itself.
    expect(finding?.caution).toBe(CAUTION);
  });

  it('counts only while the target stood high enough, and not while the roof was closed', () => {
    const frames = imaged('heron', 90, 360);
    expect(found(unusedDarkness, nightOf({ frames, window, almanac: sky(), curves: up(85 * MINUTE) }))).toEqual([]);
    const held = found(
      unusedDarkness,
      nightOf({
        frames,
        window,
        almanac: sky(),
        curves: up(),
        activities: [act('hold', 0, 60 * MINUTE, { why: 'cloud' })],
      }),
    );
    expect(minutes(held[0]?.costMs)).toBeCloseTo(30, 6);
  });

  it('is not found where the night was used from dusk to dawn', () => {
    expect(
      found(unusedDarkness, nightOf({ frames: imaged('heron', 6, 355), window, almanac: sky(), curves: up() })),
    ).toEqual([]);
  });

  it('is not found where darkness never comes', () => {
    expect(
      found(
        unusedDarkness,
        nightOf({ frames: imaged('heron', 90, 360), window, almanac: sky('sun-minimum'), curves: up() }),
      ),
    ).toEqual([]);
  });

  it('is less sure where the target’s place is unknown, and not assessed without a site', () => {
    const night = nightOf({ frames: imaged('heron', 40, 360), window, almanac: sky() });
    expect(found(unusedDarkness, night)[0]?.confidence).toBe('low');
    expect(ask(unusedDarkness, altered(night, { sky: { almanac: null } }))).toEqual({ notAssessed: 'the site' });
  });
});
