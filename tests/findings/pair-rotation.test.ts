import { describe, expect, it } from 'vitest';
import { pairRotation } from '../../src/findings/pair-rotation.js';
import { CAUTION } from '../../src/model/index.js';
import { pairOf, pointed } from '../support/pointing.js';
import { ask, found, lights, nightOf } from './support.js';

const plain = nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) });

describe('cameras turned against each other', () => {
  it('are found with the common field that turning one wins', () => {
    const [finding] = found(pairRotation, pointed(plain, { pairs: [pairOf({ turnDeg: 40, asideArcsec: 0 })] }));
    expect(finding?.title).toBe('The cameras of heron and wren are rotated by 40.0° against each other');
    expect(finding?.evidence[1]).toContain('100.0 %');
    expect(finding?.advice).toMatch(/^Turn wren’s camera by 40\.0° from \+[xy] towards \+[xy] of its own frames/);
    expect(finding?.caution).toBe(CAUTION);
  });

  it('are found once on several targets, and twice where a camera was turned between them', () => {
    const one = pairOf({ turnDeg: 40, asideArcsec: 0 });
    const other = { ...pairOf({ turnDeg: 40.1, asideArcsec: 0 }), target: 'M 33', matched: one.matched + 1 };
    const [finding, ...more] = found(pairRotation, pointed(plain, { pairs: [one, other] }));
    expect(more).toEqual([]);
    // The angle is that of the pair with most stars.
    expect(finding?.title).toContain('by 40.1°');
    expect(finding?.evidence.join('; ')).toMatch(/^on NGC 281 .*; on M 33 /);
    const turned = pairOf({ turnDeg: 45, asideArcsec: 0 });
    expect(found(pairRotation, pointed(plain, { pairs: [one, turned] }))).toHaveLength(2);
  });

  it('are not found where a half turn is all, or nothing is to be won', () => {
    expect(found(pairRotation, pointed(plain, { pairs: [pairOf({ turnDeg: 180, asideArcsec: 0 })] }))).toEqual([]);
    expect(found(pairRotation, pointed(plain, { pairs: [pairOf({ turnDeg: 2, asideArcsec: 0 })] }))).toEqual([]);
  });

  it('are not assessed without stars', () => {
    expect(ask(pairRotation, plain)).toEqual({ notAssessed: 'stars measured in frames of two trains on one field' });
  });
});
