import { describe, expect, it } from 'vitest';
import { findAll } from '../../src/findings/index.js';
import { roughGuiding } from '../../src/findings/rough-guiding.js';
import { ask, found, guidingOf, lights, nightOf, quick } from './support.js';

const frames = lights('heron', { from: 0, seconds: 300, count: 40 });
const night = (rms: (t: number) => number) =>
  nightOf({ frames, guiding: guidingOf(0, 40 * 303, 3, (t, i) => [quick(rms(t), i), quick(rms(t), i)]) });

describe('guiding that is rough all night', () => {
  it('is named, stands before everything else, and could win every frame', () => {
    const rough = night(() => 2.5);
    const [finding] = found(roughGuiding, rough);
    expect(finding).toMatchObject({ frames: 40, costMs: 40 * 300_000, winMs: 40 * 300_000, confidence: 'low' });
    expect(finding?.title).toMatch(/^Guiding was too rough for all 40 frames: RMS \d\.\d\d″$/);
    expect(finding?.evidence[0]).toContain('against a limit of 1.60″ (1 px)');
    expect(findAll(rough).ranked[0]?.id).toBe('rough-guiding');
  });

  it('is not found where it is good, nor for spells, which are another finding', () => {
    expect(
      found(
        roughGuiding,
        night(() => 0.4),
      ),
    ).toEqual([]);
    expect(
      found(
        roughGuiding,
        night((t) => (t < 15 * 303 ? 2.5 : 0.4)),
      ),
    ).toEqual([]);
  });

  it('is not assessed without samples', () => {
    expect(ask(roughGuiding, nightOf({ frames }))).toEqual({ notAssessed: 'a guiding log with samples' });
  });
});
