import { describe, expect, it } from 'vitest';
import { unusedDarkness } from '../../src/findings/unused-darkness.js';
import { CAUTION, type DarkWindow, type Night, type SkyNight, type WorthAssessment } from '../../src/model/index.js';
import { act, ask, curve, found, HOUR, lights, MINUTE, minutes, nightOf, place, span } from './support.js';
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
    // Exposures of 297 s every 300 s: 99 % of what is left after 5 min of setting up on each train.
    expect(minutes(finding?.winMs)).toBeCloseTo(0.99 * 73, 0);
    expect(finding).toMatchObject({
      title: 'First exposure 40 min after dark',
      confidence: 'medium',
    });
    expect(rest).toEqual([]);
  });

  it('counts from astronomical darkness for broad bands, from nautical darkness for narrow ones', () => {
    // Astronomical darkness 35 min after nautical darkness, as at 40° north in autumn.
    const almanac: SkyNight = {
      ...sky(),
      twilight: { ...sky().twilight, astronomical: { duskMs: window.startMs + 35 * 60_000, dawnMs: window.endMs } },
    };
    const frames = (filter: string) =>
      lights('heron', { from: 40 * MINUTE, seconds: 297, pause: 3, count: 64, filter });
    const ask = (filter: string) =>
      found(unusedDarkness, nightOf({ frames: frames(filter), window, almanac, curves: up() }));
    expect(ask('L')).toEqual([]);
    expect(minutes(ask('Ha')[0]?.costMs)).toBeCloseTo(40, 6);
    // It never gets dark enough for broad bands: nobody left anything unused.
    expect(found(unusedDarkness, nightOf({ frames: frames('L'), window, almanac: sky(), curves: up() }))).toEqual([]);
  });

  it('is found at dawn', () => {
    const [finding] = found(
      unusedDarkness,
      nightOf({ frames: imaged('heron', 5, 300), window, almanac: sky(), curves: up() }),
    );
    expect(finding?.title).toMatch(/^Last exposure ended .* before the end of darkness$/);
    expect(minutes(finding?.costMs)).toBeCloseTo(60, 0);
    // A longer sequence closes mount and roof by itself.
    expect(finding?.caution).toBe(CAUTION);
  });

  it('costs nothing where all was taken that the goals of the target want', () => {
    const asked = (hours: number) =>
      found(
        unusedDarkness,
        nightOf({
          frames: imaged('heron', 5, 305),
          window,
          almanac: sky(),
          curves: up(),
          goals: [
            {
              name: 'NGC 281',
              aliases: [],
              raDeg: 13,
              decDeg: 56,
              goals: { hours: { 'H-alpha': hours }, perTrain: {} },
            },
          ],
        }),
      );
    // 60 frames of 297 s.
    const [reached] = asked(4.95);
    expect(reached).toMatchObject({
      costMs: 0,
      title: 'The goals of NGC 281 were reached 55 min before the end of darkness',
    });
    expect(reached).not.toHaveProperty('winMs');
    expect(minutes(asked(4.96)[0]?.winMs)).toBeGreaterThan(50);
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

  it('ends where the target sinks, and begins where it has risen: nobody is sent to image the horizon', () => {
    const from = (curves: ReturnType<typeof up>, first: number, last: number) =>
      found(unusedDarkness, nightOf({ frames: imaged('heron', first, last), window, almanac: sky(), curves }))[0];
    // 23:00 UTC is 01:00 at the site; the target is up to 02:00, four hours and a half after the window's begin.
    const dawn = from(up(0, 5 * HOUR), 5, 240);
    expect(dawn?.title).toBe('Last exposure ended 1.0 h before NGC 281 sank to its limit');
    expect(dawn?.advice).toMatch(/run to 02:00, when NGC 281 sinks to its limit; another target .* until 03:00\. Let/);
    const dusk = from(up(HOUR), 100, 355);
    expect(dusk?.title).toBe('First exposure 40 min after NGC 281 was high enough');
    expect(dusk?.advice).toMatch(/^Be ready at 22:00, when NGC 281 is high enough/);
  });

  it('names all targets whose limit it was, where trains imaged different ones', () => {
    const frames = [
      ...imaged('heron', 5, 240),
      ...lights('wren', { from: 5 * MINUTE, seconds: 297, pause: 3, count: 47, target: 'IC 1848' }),
    ];
    const curves = ['NGC 281', 'IC 1848'].map((target) => curve(target, 0, 5 * HOUR, () => 50));
    const [finding] = found(unusedDarkness, nightOf({ frames, window, almanac: sky(), curves }));
    expect(finding?.title).toMatch(/^Last exposure ended .* before NGC 281 and IC 1848 sank to their limit$/);
    expect(finding?.advice).toContain('run to 02:00, when NGC 281 and IC 1848 sink to their limit');
  });

  it('says for whom which time holds, where filters need another darkness', () => {
    const dawnMs = window.endMs - 35 * 60_000;
    const almanac: SkyNight = {
      ...sky(),
      twilight: { ...sky().twilight, astronomical: { duskMs: window.startMs, dawnMs } },
    };
    const frames = [
      ...lights('heron', { from: 0, seconds: 297, pause: 3, count: 60, filter: 'L' }),
      ...lights('wren', { from: 0, seconds: 297, pause: 3, count: 60, filter: 'Ha' }),
    ];
    const [finding] = found(unusedDarkness, nightOf({ frames, window, almanac, curves: up() }));
    // Six hours from 21:00; darkness ends at 02:25 for broad bands.
    expect(finding?.advice).toMatch(/^Let the sequence run to 02:25 on heron and to 03:00 on wren, or/);
    expect(finding?.evidence[0]).toMatch(
      /until 02:25 \(astronomical darkness\) for heron and until 03:00 \(nautical darkness\) for wren$/,
    );
    expect(minutes(finding?.costMs)).toBeCloseTo(25 + 60, 0);
  });

  it('promises nothing of hours of which hardly any light arrived', () => {
    const frames = imaged('heron', 5, 300);
    const night = nightOf({
      frames,
      window,
      almanac: sky(),
      curves: up(),
      skyOf: (f) => place(f.exposure.startMs, 50),
    });
    const through = (transparency: number): Night => ({
      ...night,
      worth: {
        frames: Object.fromEntries(
          frames.map(({ id }) => [id, { transparency, transparencyFrom: 'measured', extinctionPerAirmass: 0 }]),
        ),
        totals: {},
      } as unknown as WorthAssessment,
    });
    expect(found(unusedDarkness, through(0.9))[0]?.winMs).toBeGreaterThan(0);
    const [hazy] = found(unusedDarkness, through(0.16));
    expect(hazy).toMatchObject({ confidence: 'low', costMs: expect.any(Number) });
    expect(hazy?.winMs).toBeUndefined();
    expect(hazy?.evidence[2]).toMatch(/^in the last hour no more than 16 % of the light arrived on heron/);
    expect(hazy?.advice).toMatch(/^Look for dew, haze or cloud first; if the light comes back: let the sequence/);
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
