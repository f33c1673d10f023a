import { describe, expect, it } from 'vitest';
import type { ReplayGain } from '../../../src/model/index.js';
import { signedDuration } from '../../../src/model/index.js';
import { gainRange, gainUnit } from '../../../src/report/text/gain.js';

const MINUTE = 60_000;
const gain = (low: number, high: number): ReplayGain => ({
  meanMs: ((low + high) / 2) * MINUTE,
  lowMs: low * MINUTE,
  highMs: high * MINUTE,
});

describe('a gain', () => {
  it.each([
    [34, '+34 min'],
    [-12, '−12 min'],
    [0.2, '0 min'],
    [-0.2, '0 min'],
    [59.6, '+1.0 h'],
    [135, '+2.3 h'],
    [-176, '−2.9 h'],
  ])('of %d minutes is %s', (minutes, text) => {
    expect(signedDuration(minutes * MINUTE)).toBe(text);
  });

  it.each([
    [29, 39, '+29 to +39 min'],
    [-5, 3, '−5 to +3 min'],
    [48, 66, '+48 min to +1.1 h'],
    [-180, -173, '−3.0 to −2.9 h'],
    [4, 4.2, '+4 min'],
  ])('between %d and %d minutes is %s', (low, high, text) => {
    expect(gainRange(gain(low, high))).toBe(text);
  });

  it('stands on an axis of hours where minutes would be long figures', () => {
    expect(gainUnit([gain(-20, 40)])).toMatchObject({ ms: MINUTE, name: 'minutes' });
    expect(gainUnit([gain(-20, 40), gain(-180, -170)])).toMatchObject({ ms: 60 * MINUTE, name: 'hours' });
    expect(gainUnit([])).toMatchObject({ name: 'minutes' });
  });
});
