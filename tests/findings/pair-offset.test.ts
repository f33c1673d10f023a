import { describe, expect, it } from 'vitest';
import { pairOffset } from '../../src/findings/pair-offset.js';
import { CAUTION } from '../../src/model/index.js';
import { pairOf, pointed } from '../support/pointing.js';
import { ask, found, lights, nightOf } from './support.js';

const plain = nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) });

describe('fields whose centres lie apart', () => {
  it('are found with what bringing them together wins', () => {
    const night = pointed(plain, { pairs: [pairOf({ turnDeg: 0, asideArcsec: 1800 })] });
    const [finding] = found(pairOffset, night);
    expect(finding?.title).toBe('The fields of heron and wren on NGC 281 lie 30.0′ apart');
    // Half the sensors' widths: (6248·1.6157 + 6248·1.2926)/2 = 9085.6″; 1800″ aside the companion (8076″ wide) keeps
    // 9085.6 − 1800 = 7285.6″ of its width: 9.8 % more are to be won.
    expect(finding?.price).toBe('10 % of the field');
    expect(finding?.evidence[2]).toContain('+1114 px along x, +0 px along y of heron’s frames');
    expect(finding?.caution).toBe(CAUTION);
  });

  it('are not found where the smaller field lies whole within the larger', () => {
    expect(found(pairOffset, pointed(plain, { pairs: [pairOf({ turnDeg: 0, asideArcsec: 600 })] }))).toEqual([]);
  });

  it('are not assessed without stars', () => {
    expect(ask(pairOffset, plain)).toEqual({ notAssessed: 'stars measured in frames of two trains on one field' });
  });
});
