import { describe, expect, it } from 'vitest';
import { fieldRotation } from '../../src/findings/field-rotation.js';
import { CAUTION } from '../../src/model/index.js';
import { pointed, pointingOf, rotationOf } from '../support/pointing.js';
import { ask, found, lights, nightOf } from './support.js';

const plain = nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) });

describe('a field that turns', () => {
  it('is found once a target, with the least error of the polar axis', () => {
    // 0.1° an hour on 300 s at 3757 px from the middle: 0.1·π/180·3757/12 = 0.546 px.
    const [finding, ...others] = found(
      fieldRotation,
      pointed(plain, {
        pointings: [
          pointingOf('heron', { rotation: rotationOf(-0.1) }),
          pointingOf('wren', { rotation: rotationOf(-0.1, { cornerTrailPx: 0.5 }) }),
        ],
      }),
    );
    expect(others).toEqual([]);
    expect(finding?.title).toBe(
      'The field of NGC 281 turned by 0.100° per hour: 0.5 px per sub in the corners of ' + 'heron’s frames',
    );
    expect(finding?.evidence).toHaveLength(3);
    expect(finding?.evidence[2]).toContain('off by 12.6′ or more');
    expect(finding?.caution).toBe(CAUTION);
  });

  it('is not found where the corners do not show it, or noise is all', () => {
    expect(found(fieldRotation, pointed(plain))).toEqual([]);
    const noise = pointingOf('heron', { rotation: rotationOf(0.1, { uncertaintyDegPerHour: 0.05 }) });
    expect(found(fieldRotation, pointed(plain, { pointings: [noise] }))).toEqual([]);
  });

  it('says so where the declination does not tell of the axis', () => {
    const near = pointingOf('heron', { rotation: rotationOf(0.2, { polarErrorAtLeastArcmin: null }) });
    expect(found(fieldRotation, pointed(plain, { pointings: [near] }))[0]?.evidence[1]).toContain('not known');
  });

  it('is not assessed without frames laid on one another', () => {
    expect(ask(fieldRotation, plain)).toEqual({ notAssessed: 'stars measured in at least six frames of one field' });
  });
});
