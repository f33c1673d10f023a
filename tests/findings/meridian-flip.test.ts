import { CAUTION } from '../../src/model/index.js';
import { describe, expect, it } from 'vitest';
import { meridianFlip } from '../../src/findings/meridian-flip.js';
import { act, ask, found, HOUR, lights, minutes, nightOf } from './support.js';

// heron's last exposure ends at 906 s, wren's at 969 s; the flip begins then and all go on at 1119 s.
const frames = [
  ...lights('heron', { from: 0, seconds: 300, count: 3 }),
  ...lights('heron', { from: 1119, seconds: 300, count: 3 }),
  ...lights('wren', { from: 0, seconds: 240, count: 4 }),
  ...lights('wren', { from: 1119, seconds: 240, count: 4 }),
];
const flip = [act('flip', 969, 1059), act('centre', 1059, 1100), act('guiding-start', 1100, 1119)];

describe('the meridian flip', () => {
  it('is found with what it cost each train, and wins the wait before it', () => {
    const [finding] = found(meridianFlip, nightOf({ frames, activities: flip }));
    expect(minutes(finding?.costMs)).toBeCloseTo((1119 - 906 + 1119 - 969) / 60, 6);
    // An hour without the wait is no hour kept: readouts take their part of it.
    expect(minutes(finding?.winMs) / ((969 - 906) / 60)).toBeGreaterThan(0.95);
    expect(minutes(finding?.winMs) / ((969 - 906) / 60)).toBeLessThan(1);
    expect(finding).toMatchObject({ confidence: 'high', caution: CAUTION });
  });

  it('wins what lasts longer than usual as well', () => {
    const slow = [
      ...lights('heron', { from: 0, seconds: 300, count: 3 }),
      ...lights('heron', { from: 906 + 600, seconds: 300, count: 3 }),
    ];
    const [finding] = found(
      meridianFlip,
      nightOf({ frames: slow, activities: [act('flip', 906, 1000), act('centre', 1000, 1490)] }),
    );
    expect(minutes(finding?.winMs) / (10 - 4)).toBeGreaterThan(0.95);
    expect(minutes(finding?.winMs) / (10 - 4)).toBeLessThan(1);
    expect(finding?.advice).toContain('a centring that converges sooner');
  });

  it('is not charged with a rest that began long before', () => {
    const late = [
      ...lights('heron', { from: 0, seconds: 300, count: 3 }),
      ...lights('heron', { from: 2 * HOUR + 300, seconds: 300, count: 3 }),
    ];
    const [finding] = found(
      meridianFlip,
      nightOf({ frames: late, activities: [act('flip', 2 * HOUR, 2 * HOUR + 90)] }),
    );
    expect(minutes(finding?.costMs)).toBeCloseTo(5, 6);
  });

  it('is not found on a night without one', () => {
    expect(found(meridianFlip, nightOf({ frames }))).toEqual([]);
  });

  it('is not assessed from headers alone', () => {
    expect(ask(meridianFlip, nightOf({ frames, headersOnly: true }))).toEqual({ notAssessed: 'an event log' });
  });
});
