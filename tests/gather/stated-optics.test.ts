import { describe, expect, it } from 'vitest';
import type { TrainConfig } from '../../src/config/index.js';
import type { TrainFrame } from '../../src/gather/assign-trains.js';
import { opticsWarnings } from '../../src/gather/stated-optics.js';

const train = (id: string, focalLengthMm?: number): TrainConfig => ({
  id,
  role: id === 'heron' ? 'pilot' : 'companion',
  filterWidthsNm: {},
  filterWavelengthsNm: {},
  frames: ['**/*'],
  match: {},
  logs: [],
  ...(focalLengthMm === undefined ? {} : { focalLengthMm }),
});
const light = (id: string, i: number, focalLengthMm?: number): TrainFrame => ({
  file: `${id}/${i}.fits`,
  train: id,
  sizeBytes: 5760,
  headerHash: `${id}${i}`,
  kind: 'light',
  ...(focalLengthMm === undefined ? {} : { focalLengthMm }),
});
const lights = (id: string, focalLengthMm?: number) => [0, 1, 2].map((i) => light(id, i, focalLengthMm));
const TRAINS = [train('heron', 480), train('wren', 600)];

describe('focal lengths that headers state', () => {
  it('are reported where the rig file says another, with the train whose they are', () => {
    const [first, ...more] = opticsWarnings(TRAINS, [...lights('heron', 600), ...lights('wren', 600)]);
    expect(more).toEqual([]);
    expect(first).toMatchObject({ code: 'focal-lengths-differ', train: 'heron', count: 3 });
    expect(first?.message).toContain('state a focal length of 600 mm, the rig file 480 mm');
    expect(first?.message).toContain('wren has 600 mm: check whose frames the pattern of heron finds');
    const [reducer] = opticsWarnings(TRAINS, lights('heron', 384));
    expect(reducer?.message).toContain('384 mm, the rig file 480 mm');
    expect(reducer?.message).toMatch(/Correct the one that is wrong$/);
  });

  it('may be nominal, be silent, or differ in a frame or two', () => {
    expect(opticsWarnings(TRAINS, [...lights('heron', 472), ...lights('wren')])).toEqual([]);
    expect(opticsWarnings(TRAINS, [...lights('heron', 480), light('heron', 3, 2000)])).toEqual([]);
    expect(opticsWarnings([train('heron')], lights('heron', 600))).toEqual([]);
  });
});
