import { CAUTION } from '../../src/model/index.js';
import { describe, expect, it } from 'vitest';
import { slowReadout } from '../../src/findings/slow-readout.js';
import { ask, found, HERON, lights, minutes, nightOf, T0 } from './support.js';

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

  it('reports occasional stalls in saving, which no usual pause shows', () => {
    // Every seventh file takes a minute longer.
    const night = (stalledSeconds: number) => {
      const frames = Array.from({ length: 70 }, (_, i) => {
        const stalls = Math.floor(i / 7);
        const savedAfter = 2 + (i % 7 === 6 ? stalledSeconds : 0);
        const [frame] = lights('heron', { from: i * 123 + stalls * stalledSeconds, seconds: 120, count: 1 });
        return frame ? [{ ...frame, savedMs: frame.exposure.endMs + savedAfter * 1000 }] : [];
      }).flat();
      return found(slowReadout, nightOf({ frames, trains: [HERON] }));
    };
    const [finding] = night(60);
    expect(finding?.title).toBe('Saving a frame stalled 10 times on heron');
    expect(minutes(finding?.costMs)).toBeCloseTo(10, 6);
    expect(finding?.evidence[1]).toMatch(/^\d\d:\d\d: 1 min 02 s$/);
    // Twelve seconds more are no stall, and a file that is saved while the next one exposes costs nothing.
    expect(night(12)).toEqual([]);
    const beside = lights('heron', {
      from: 0,
      seconds: 120,
      count: 70,
      more: (i) => ({ savedMs: T0 + (i * 123 + 120 + (i % 7 === 6 ? 62 : 2)) * 1000 }),
    });
    expect(found(slowReadout, nightOf({ frames: beside, trains: [HERON] }))).toEqual([]);
  });

  it('is less sure from headers alone, and not assessed without lights', () => {
    const night = nightOf({ frames: [...train('heron', 2.5), ...train('wren', 9.5)], headersOnly: true });
    expect(found(slowReadout, night)[0]?.confidence).toBe('medium');
    expect(ask(slowReadout, nightOf({ frames: [] }))).toEqual({ notAssessed: 'lights' });
  });
});
