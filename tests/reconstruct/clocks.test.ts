import { describe, expect, it } from 'vitest';
import { alignLogs, logOffset } from '../../src/reconstruct/clocks.js';
import type { LogEvent } from '../../src/model/index.js';
import { event } from '../support/events.js';

/** Dithers at uneven distances, as real ones are. */
const MINUTES = [0, 16, 31, 48, 66, 81, 97, 115];

function dithers(train: string, aheadMs: number, jitterMs = 0): LogEvent[] {
  return MINUTES.map((m, i) => {
    const e = event('20:00:00', 'dither-begin', {}, train);
    return { ...e, atMs: e.atMs + m * 60_000 + aheadMs + (i % 2 === 0 ? jitterMs : -jitterMs) };
  });
}

describe('two computers’ clocks', () => {
  it('are compared by the dithers both wrote down', () => {
    expect(logOffset(dithers('heron', 0), dithers('wren', 42_000, 200))).toMatchObject({ pairs: 8 });
    expect(
      Math.abs(logOffset(dithers('heron', 0), dithers('wren', 42_000, 200))!.offsetMs - 42_000),
    ).toBeLessThanOrEqual(200);
  });

  it('are found apart even by a wrong hour', () => {
    expect(logOffset(dithers('heron', 0), dithers('wren', 3_600_000))?.offsetMs).toBe(3_600_000);
  });

  it('say nothing with too little in common', () => {
    expect(logOffset(dithers('heron', 0), dithers('wren', 42_000).slice(0, 2))).toBeNull();
    expect(logOffset(dithers('heron', 0), [])).toBeNull();
  });

  it('are brought to the pilot’s, with a note', () => {
    const { events, notes } = alignLogs([...dithers('heron', 0), ...dithers('wren', 42_000)], 'heron');
    const [a, b] = ['heron', 'wren'].map((train) => events.filter((e) => e.train === train).map((e) => e.atMs));
    expect(b).toEqual(a);
    expect(notes).toMatchObject([{ train: 'wren', offsetMs: 42_000, corrected: true, pairs: 8 }]);
  });

  it('are left alone when they agree to within the logs’ own delays', () => {
    const { notes, shiftsMs } = alignLogs([...dithers('heron', 0), ...dithers('wren', 120)], 'heron');
    expect(shiftsMs.size).toBe(0);
    expect(notes[0]).toMatchObject({ corrected: false });
  });
});
