import { describe, expect, it } from 'vitest';
import { durationMs, hull } from '../../../src/model/index.js';
import { targetUpMs, worthOf } from '../../../src/report/figures/worth.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';

describe('worthOf', () => {
  it.each(NIGHT_NAMES)('sums to the frames of the night: %s', (name) => {
    const night = namedNight(name);
    const worth = worthOf(night);
    for (const verdict of ['kept', 'doubtful', 'lost'] as const) {
      const frames = night.accounts.lights.filter((frame) => frame.verdict === verdict);
      expect(worth.frames[verdict]).toBe(frames.length);
      expect(worth.integrationMs[verdict]).toBe(frames.reduce((sum, frame) => sum + durationMs(frame.exposure), 0));
    }
    expect(worth.frames.taken).toBe(night.accounts.lights.length);
  });

  it('has a twin gain between one and the number of trains', () => {
    for (const name of NIGHT_NAMES) {
      const night = namedNight(name);
      const { twinGain } = worthOf(night);
      if (twinGain === null) continue;
      expect(twinGain, name).toBeGreaterThanOrEqual(1);
      expect(twinGain, name).toBeLessThanOrEqual(night.gathered.trains.length);
    }
  });

  it('has no twin gain where nothing was kept', () => {
    expect(worthOf(namedNight('none-kept')).twinGain).toBeNull();
    expect(worthOf(namedNight('no-frames')).twinGain).toBeNull();
  });

  it('charges a wait to the train that was ready last, and never to one that waited alone', () => {
    const night = namedNight('twin-night');
    const { held } = worthOf(night);
    expect(held[0]?.holder).toBe('wren');
    const byWren = night.accounts.dithers
      .filter((cycle) => cycle.holder === 'wren')
      .reduce((sum, cycle) => sum + (cycle.waits.heron?.waitMs ?? 0), 0);
    expect(held[0]?.ms).toBe(byWren);
    expect(worthOf(namedNight('one-train')).held).toEqual([]);
  });
});

describe('targetUpMs', () => {
  it('is the whole window for a target that never sinks to the limit', () => {
    const { accounts, ...night } = namedNight('two-hours');
    const window = hull(accounts.lights.map(({ exposure }) => exposure)) ?? night.sky.window;
    expect(targetUpMs({ ...night, accounts, sky: { ...night.sky, window } }, 'heron')).toBe(durationMs(window));
  });

  it('is less for one that does', () => {
    const night = namedNight('three-trains');
    const up = targetUpMs(night, 'heron');
    expect(up).toBeGreaterThan(0);
    expect(up).toBeLessThan(durationMs(night.sky.window));
  });

  it('is not known without a site', () => {
    expect(targetUpMs(namedNight('no-site'), 'heron')).toBeNull();
  });
});
