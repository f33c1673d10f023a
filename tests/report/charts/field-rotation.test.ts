import { describe, expect, it } from 'vitest';
import type { FrameStars, Night } from '../../../src/model/index.js';
import { fieldRotation } from '../../../src/report/charts/field-rotation.js';
import { drawn, heights, missingOf } from '../../support/charts.js';
import { namedNight } from '../../support/nights.js';
import { pointed, pointingOf } from '../../support/pointing.js';

const STARS: FrameStars = {
  by: 'full',
  count: 400,
  fwhm: 2.6,
  fwhmUncertainty: 0.01,
  halfFlux: 1.5,
  elongation: 1.05,
  direction: 0,
  agreement: 0.1,
  background: 400,
  noise: 8,
  flux: 1,
  saturated: 0,
  shift: null,
};

/** The pilot's frames turn by a hundredth of a degree each; the second half stands on the other side of the pier. */
function turning(night: Night): Night {
  const [{ target } = { target: undefined }] = night.accounts.lights;
  const own = night.accounts.lights.filter((light) => light.train === 'heron' && light.target === target).slice(0, 20);
  const frames = Object.fromEntries(
    own.map((light, i) => [
      light.id,
      { ...STARS, shift: { x: 0, y: 0, rotation: 0.01 * (i % 10) + (i < 10 ? 0 : -180), matched: 100 } },
    ]),
  );
  const pointing = pointingOf('heron', { target: target ?? '' });
  return { ...night, stars: { frames, pointings: [pointing], pairs: [], warnings: [] } };
}

describe('the chart of the field’s rotation', () => {
  it('takes the half turn of a flip out, each side from its own median', () => {
    const drawing = drawn(fieldRotation, turning(namedNight('twin-night')));
    expect(drawing.config.data.datasets).toHaveLength(2);
    const first = heights(drawing, 'heron');
    expect(first[0]).toBeCloseTo(-0.045, 9);
    expect(first[9]).toBeCloseTo(0.045, 9);
    const [, second] = drawing.config.data.datasets;
    const after = second?.data.map((p) => (typeof p === 'object' && p !== null && 'y' in p ? Number(p.y) : NaN));
    expect(after?.[0]).toBeCloseTo(-0.045, 9);
    expect(drawing.altText).toContain('heron on ');
  });

  it('says what is missing', () => {
    expect(missingOf(fieldRotation, namedNight('twin-night'))).toContain('too few frames');
    const alone = pointed(namedNight('twin-night'), { pointings: [pointingOf('heron', { rotation: null })] });
    expect(missingOf(fieldRotation, alone)).toContain('too few frames');
  });
});
