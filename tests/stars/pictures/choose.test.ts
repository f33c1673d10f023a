import { describe, expect, it } from 'vitest';
import { chooseFields, chooseStrips, FIELDS_MAX, STRIPS_MAX } from '../../../src/stars/pictures/choose.js';
import { interval } from '../../../src/model/index.js';
import { starryNight } from '../../support/starry-night.js';

describe('the choice of pictures', () => {
  const night = starryNight('twin-night', (index) => ({ fwhm: 3 - index * 0.001 }));
  const lights = night.accounts.lights;
  const stars = night.stars?.frames ?? {};

  it('shows frames that are not kept, those to look at first, each beside the nearest kept one of its kind', () => {
    const strips = chooseStrips(lights, stars);
    expect(strips.length).toBeGreaterThan(3);
    expect(strips.length).toBeLessThanOrEqual(STRIPS_MAX);
    for (const { frame, beside } of strips) {
      expect(frame.verdict).not.toBe('kept');
      expect(beside).toMatchObject({
        verdict: 'kept',
        train: frame.train,
        target: frame.target,
        filter: frame.filter,
      });
    }
    const verdicts = strips.map(({ frame }) => frame.verdict);
    expect(verdicts).toEqual([...verdicts].sort((a, b) => (a === b ? 0 : a === 'doubtful' ? -1 : 1)));
  });

  it('shows the sharpest kept frame of each target and train', () => {
    const fields = chooseFields(lights, stars);
    expect(fields.length).toBeLessThanOrEqual(FIELDS_MAX);
    for (const field of fields) {
      const sharpest = lights
        .filter((f) => f.verdict === 'kept' && f.train === field.train && f.target === field.target)
        .reduce((best, f) => ((stars[f.id]?.fwhm ?? 9) < (stars[best.id]?.fwhm ?? 9) ? f : best));
      expect(field.id).toBe(sharpest.id);
    }
    expect(new Set(fields.map(({ train }) => train))).toEqual(new Set(['heron', 'wren']));
  });

  it('passes over short frames for a bright core where there are long ones', () => {
    const [first, ...others] = lights.filter((f) => f.verdict === 'kept' && f.train === 'heron');
    if (!first) throw new Error('heron kept nothing');
    const { startMs } = first.exposure;
    const core = { ...first, id: 'core', askedMs: 500, exposure: interval(startMs, startMs + 500) };
    const sharp = { ...stars, core: { ...stars[first.id]!, fwhm: 1 } };
    expect(chooseFields([core, first, ...others], sharp).map(({ id }) => id)).not.toContain('core');
    expect(chooseFields([core], sharp).map(({ id }) => id)).toEqual(['core']);
    // Nor does one stand beside a long frame to show what that ought to look like.
    const harmed = { ...first, id: 'harmed', verdict: 'lost' as const };
    expect(chooseStrips([core, harmed], { ...sharp, harmed: stars[first.id]! })).toEqual([]);
  });

  it('passes over frames without stars', () => {
    const dark = starryNight('twin-night', () => ({ fwhm: null, count: 0 }));
    expect(chooseFields(dark.accounts.lights, dark.stars?.frames ?? {})).toEqual([]);
    expect(chooseStrips(dark.accounts.lights, dark.stars?.frames ?? {})).toEqual([]);
  });
});
