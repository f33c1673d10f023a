import { describe, expect, it } from 'vitest';
import type { Train } from '../../src/model/index.js';
import { registerLights } from '../../src/stars/pointing/index.js';
import { nightOfRecord } from '../../src/again.js';
import { findAll } from '../../src/findings/index.js';
import { toRecord } from '../../src/record/index.js';
import { namedNight } from '../support/nights.js';
import { pairOf, pointed } from '../support/pointing.js';
import { drawnLights, HERON, read } from './pair/drawn-lights.js';
import { HERON_SCALE, type NightPlan, WREN_SCALE } from './pair/drawn-night.js';
import { SENSOR } from './registration/drawn-sky.js';

const PLAN: NightPlan = {
  seed: 9,
  hours: 4,
  flexure: { x: 2.4, y: 0.7 },
  rotationDegPerHour: 0.01,
  every: 3,
  subSeconds: 290,
};

describe('the pointing of two trains, from the lights of a drawn night', () => {
  const { lights, moves } = drawnLights(PLAN);
  const night = read(lights, moves);
  const [pair] = night.pairs;

  it('lays every frame on its reference', () => {
    expect(registerLights(lights).shifts.size).toBe(lights.length);
    expect(night.pointings.map(({ train, registered }) => [train, registered])).toEqual([
      ['heron', lights.length / 2],
      ['wren', lights.length / 2],
    ]);
  });

  it('finds the pair as it was drawn', () => {
    // The limits are the project's goals: rotation to 0.01°, scale to 0.02 %, flexure to 0.3 arcsec an hour.
    expect(Math.abs(Math.abs(pair?.rotation ?? NaN) - 3)).toBeLessThan(0.05);
    expect(Math.abs((pair?.scaleRatio ?? NaN) / (HERON_SCALE / WREN_SCALE) - 1)).toBeLessThan(0.0002);
    expect(Math.abs((pair?.flexureArcsecPerHour ?? NaN) - Math.hypot(2.4, 0.7))).toBeLessThan(0.3);
    expect(pair?.trains).toEqual(['heron', 'wren']);
    // The longer telescope with the same sensor sees a part of what the shorter one sees, by the square of the scales.
    expect((pair?.overlap.heron ?? NaN) / (pair?.overlap.wren ?? NaN)).toBeCloseTo((WREN_SCALE / HERON_SCALE) ** 2, 2);
  });

  it('takes the dithers by the log, and by the stars where none is logged', () => {
    const [heron] = night.pointings;
    expect(heron?.dithersBy).toBe('log');
    expect(heron?.dithers?.places).toHaveLength(moves.length + 1);
    expect(heron?.dithers?.steps.every(({ askedPx }) => askedPx === 5)).toBe(true);
    const [unlogged] = read(lights, []).pointings;
    expect(unlogged?.dithersBy).toBe('stars');
    // A step below a pixel is taken for guiding.
    expect(unlogged?.dithers?.places.length).toBeGreaterThan(0.8 * moves.length);
    expect(unlogged?.dithers?.steps.every(({ askedPx }) => askedPx === null)).toBe(true);
  });

  it('says that a pair without scales is not compared, and still tells the dithers', () => {
    const bare: Train[] = [
      { id: 'heron', role: 'pilot' },
      { id: 'wren', role: 'companion' },
    ];
    const { pairs, pointings, warnings } = read(lights, moves, bare);
    expect(pairs).toEqual([]);
    expect(warnings.map(({ code }) => code)).toEqual(['pair-without-scale']);
    expect(pointings.map(({ drift, dithers }) => [drift, dithers !== null])).toEqual([
      [null, true],
      [null, true],
    ]);
  });

  it('takes the companion’s scale from the pilot’s where the rig does not state it', () => {
    const { pointings } = read(lights, moves, [HERON, { id: 'wren', role: 'companion' }]);
    expect(pointings[1]?.scaleArcsec).toBeCloseTo(WREN_SCALE, 2);
  });
});

describe('frames that show another field, or none', () => {
  it('are counted apart, with the reason', () => {
    const { lights, moves } = drawnLights({ ...PLAN, hours: 1 });
    const cloudy = lights.map((one, i) =>
      i === 2
        ? { ...one, measured: { ...one.measured, list: { ...SENSOR, stars: one.measured.list.stars.slice(0, 4) } } }
        : one,
    );
    const [heron] = read(cloudy, moves).pointings;
    expect(heron?.unregistered).toEqual([{ why: 'too-few-stars', frames: 1 }]);
    expect(heron?.registered).toBe(lights.length / 2 - 1);
  });
});

describe('the pair in the record', () => {
  it('keeps the price of a finding that costs no time', async () => {
    const night = pointed(namedNight('twin-night'), { pairs: [pairOf({ asideArcsec: 1800 })] });
    const found = findAll(night);
    const record = toRecord({ ...night, findings: found }, '0.0.0');
    expect(record.findings.find(({ id }) => id === 'pair-offset')?.price).toMatch(/^\d+ % of the field$/);
    const again = (await nightOfRecord(JSON.stringify(record))).night;
    const priceOf = (id: string) => again.findings.ranked.find((one) => one.id === id)?.price;
    expect(priceOf('pair-offset')).toBe(found.ranked.find(({ id }) => id === 'pair-offset')?.price);
  });

  it('stands there as the contract has it, and comes back with all it rests on', async () => {
    const night = pointed(namedNight('twin-night'));
    const record = toRecord(night, '0.0.0');
    expect(Object.keys(record.pairs?.[0] ?? {}).sort()).toEqual(
      [
        'flexureArcsecPerHour',
        'matched',
        'offsetArcsec',
        'overlap',
        'rotation',
        'scaleRatio',
        'target',
        'trains',
      ].sort(),
    );
    const again = (await nightOfRecord(JSON.stringify(record))).night;
    expect(again.stars).toEqual(JSON.parse(JSON.stringify(night.stars)));
  });
});
