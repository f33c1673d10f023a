import { CAUTION } from '../../src/model/index.js';
import { describe, expect, it } from 'vitest';
import { slowReadout } from '../../src/findings/slow-readout.js';
import { ask, found, HERON, lights, minutes, nightOf } from './support.js';

const train = (id: string, pause: number) => lights(id, { from: 0, seconds: 60, count: 100, pause });

describe('a slow readout', () => {
  it('is found on the train that takes longer than the other', () => {
    const [finding, ...rest] = found(slowReadout, nightOf({ frames: [...train('heron', 2.5), ...train('wren', 9.5)] }));
    expect(finding).toMatchObject({ title: 'wren took 9.5 s from one exposure to the next', caution: CAUTION });
    expect(minutes(finding?.costMs)).toBeCloseTo((99 * 7) / 60, 6);
    expect(rest).toEqual([]);
  });

  it('is found on a lone train by what is usual', () => {
    const [finding] = found(slowReadout, nightOf({ frames: train('heron', 14), trains: [HERON] }));
    expect(minutes(finding?.costMs)).toBeCloseTo((99 * 9) / 60, 6);
  });

  it('is not found where the trains are alike, nor for a second or two', () => {
    expect(found(slowReadout, nightOf({ frames: [...train('heron', 3), ...train('wren', 3.4)] }))).toEqual([]);
    expect(found(slowReadout, nightOf({ frames: [...train('heron', 1.2), ...train('wren', 3.2)] }))).toEqual([]);
  });

  it('is not found where too little comes together', () => {
    const few = [
      ...lights('heron', { from: 0, seconds: 60, count: 5, pause: 2 }),
      ...lights('wren', { from: 0, seconds: 60, count: 5, pause: 9 }),
    ];
    expect(found(slowReadout, nightOf({ frames: few }))).toEqual([]);
  });

  it('is less sure from headers alone, and not assessed without lights', () => {
    const night = nightOf({ frames: [...train('heron', 2.5), ...train('wren', 9.5)], headersOnly: true });
    expect(found(slowReadout, night)[0]?.confidence).toBe('medium');
    expect(ask(slowReadout, nightOf({ frames: [] }))).toEqual({ notAssessed: 'lights' });
  });
});
