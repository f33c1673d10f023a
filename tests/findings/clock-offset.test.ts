import { describe, expect, it } from 'vitest';
import { clockOffset } from '../../src/findings/clock-offset.js';
import type { ClockNote } from '../../src/model/index.js';
import { ask, found, lights, nightOf } from './support.js';

const frames = lights('heron', { from: 0, seconds: 60, count: 3 });
const note = (more: Partial<ClockNote> = {}): ClockNote => ({
  train: 'wren',
  source: 'log',
  against: 'the log of heron',
  aheadMs: 7400,
  uncertaintyMs: 30,
  by: '40 dithers',
  corrected: true,
  isKnown: true,
  isAbsolute: true,
  ...more,
});
const night = (...clocks: ClockNote[]) => nightOf({ frames, clocks });

describe('clocks that disagree', () => {
  it('are found between two computers, with what was done about it', () => {
    const [finding] = found(clockOffset, night(note(), note({ source: 'headers' })));
    expect(finding).toMatchObject({
      title: 'The computer of wren is 7.4 s ahead of the log of heron',
      costMs: 0,
      confidence: 'high',
    });
    expect(finding?.evidence[0]).toBe('± 0.03 s, by 40 dithers');
    expect(finding?.evidence[1]).toBe('taken into account in this report');
  });

  it('are found where one runs slow, however little it is behind in the middle', () => {
    const slow = note({ aheadMs: -600, drift: { perHourMs: -500, aboutMs: frames[0]!.exposure.startMs } });
    expect(found(clockOffset, night(slow))[0]).toMatchObject({
      title: 'The log of wren is 0.60 s behind the log of heron in the middle of the night, 0.50 s more per hour',
    });
  });

  it('are found between headers and their log', () => {
    expect(
      found(
        clockOffset,
        night(note({ source: 'headers', against: 'the log of wren', aheadMs: -3600_000, corrected: false })),
      )[0]?.title,
    ).toBe('The headers of wren are 1 h 00 min 00 s behind the log of wren');
  });

  it('are not found for a second, nor where the offset is not determined', () => {
    expect(found(clockOffset, night(note({ aheadMs: 1200 })))).toEqual([]);
    expect(found(clockOffset, night(note({ aheadMs: 4000, uncertaintyMs: 2000 })))).toEqual([]);
    expect(found(clockOffset, night())).toEqual([]);
  });

  it('are not assessed from headers alone', () => {
    expect(ask(clockOffset, nightOf({ frames, headersOnly: true }))).toEqual({ notAssessed: 'an event log' });
  });
});
