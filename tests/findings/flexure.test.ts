import { describe, expect, it } from 'vitest';
import { flexure } from '../../src/findings/flexure.js';
import { CAUTION } from '../../src/model/index.js';
import { flexureAt, pairOf, pointed, stretchOf } from '../support/pointing.js';
import { ask, found, lights, nightOf } from './support.js';

const plain = nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) });

describe('a companion that drifts against the pilot', () => {
  it('is found with the trail on a sub and the longest sub', () => {
    // 9 px an hour: 0.6 px on 240 s, half a pixel after 200 s.
    const [finding] = found(flexure, pointed(plain, { pairs: [pairOf({ pxPerHour: 9 })] }));
    expect(finding?.title).toBe('wren drifted against heron by 11.6″ per hour: 0.6 px per sub');
    expect(finding?.price).toBe('0.6 px per sub');
    expect(finding?.evidence.at(-1)).toBe('a sub of 240 s trails by 0.60 px; one of 200 s stays below 0.5 px');
    expect(finding?.caution).toBe(CAUTION);
  });

  it('is found by its fastest hour, unless that is noise', () => {
    const fast = stretchOf(9, 1.2926, { frames: 12 });
    const hours = [fast];
    const [finding] = found(flexure, pointed(plain, { pairs: [pairOf({}, { flexure: flexureAt(4, { hours }) })] }));
    expect(finding?.evidence[1]).toMatch(/^11\.6″ per hour from /);
    const noise = { ...fast, uncertaintyPxPerHour: 6 };
    const quiet = pairOf({}, { flexure: flexureAt(4, { hours: [noise] }) });
    expect(found(flexure, pointed(plain, { pairs: [quiet] }))).toEqual([]);
  });

  it('is not found where the subs do not show it, or where it is not measured', () => {
    expect(found(flexure, pointed(plain, { pairs: [pairOf({ pxPerHour: 2 })] }))).toEqual([]);
    const unsure = pairOf({}, { flexure: flexureAt(9, { isMeasured: false }) });
    expect(found(flexure, pointed(plain, { pairs: [unsure] }))).toEqual([]);
  });

  it('is not assessed without frames taken together', () => {
    expect(ask(flexure, pointed(plain, { pairs: [pairOf({}, { flexure: null })] }))).toEqual({
      notAssessed: 'stars measured in frames of one field that two trains took at the same time',
    });
  });
});
