import { describe, expect, it } from 'vitest';
import { calibration } from '../../src/findings/calibration.js';
import { ask, calibrationFrame, found, lights, nightOf } from './support.js';

const camera = { gain: 100, offset: 50, binning: { x: 1, y: 1 }, setTemperatureC: -10 };
const frames = [
  ...lights('heron', { from: 0, seconds: 300, count: 4, filter: 'Ha', header: () => camera }),
  ...lights('heron', { from: 1300, seconds: 300, count: 4, filter: 'OIII', header: () => camera }),
];
const darks = [calibrationFrame('heron', 'dark', 300, camera)];
const bias = [calibrationFrame('heron', 'bias', 0.001, camera)];
const flat = (filter: string) => calibrationFrame('heron', 'flat', 2, { ...camera, filter });

describe('missing calibration frames', () => {
  it('are found by kind and filter', () => {
    const [finding] = found(calibration, nightOf({ frames, library: [...darks, ...bias, flat('Ha')] }));
    expect(finding).toMatchObject({ title: 'heron lacks flats for some of its lights', frames: 4, costMs: 0 });
    expect(finding?.evidence).toEqual(['OIII, 300 s, −10 °C: no flats for 4 lights']);
  });

  it('are found where darks are of another temperature', () => {
    const warm = [calibrationFrame('heron', 'dark', 300, { ...camera, setTemperatureC: 0 })];
    expect(
      found(calibration, nightOf({ frames, library: [...warm, ...bias, flat('Ha'), flat('OIII')] }))[0]?.title,
    ).toContain('darks');
  });

  it('are not found where all are there; dark flats do for bias frames', () => {
    expect(found(calibration, nightOf({ frames, library: [...darks, ...bias, flat('Ha'), flat('OIII')] }))).toEqual([]);
    expect(
      found(
        calibration,
        nightOf({
          frames,
          library: [...darks, calibrationFrame('heron', 'dark-flat', 2, camera), flat('Ha'), flat('OIII')],
        }),
      ),
    ).toEqual([]);
  });

  it('are no bias frames where there are darks of the length', () => {
    const all = [flat('Ha'), flat('OIII')];
    expect(found(calibration, nightOf({ frames, library: [...darks, ...all] }))).toEqual([]);
    expect(found(calibration, nightOf({ frames, library: all }))[0]?.title).toContain('lacks darks and bias frames');
  });

  it('are not assessed where the folder holds none at all: they may be kept elsewhere', () => {
    expect(ask(calibration, nightOf({ frames }))).toEqual({ notAssessed: 'calibration frames in the session folder' });
  });
});
