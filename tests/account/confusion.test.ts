/**
 * Verdicts against the truth that was drawn: random nights as pixels, measured and judged as a user's are. The table of a
 * larger run, and what it is made of, stands in docs/verdicts.md.
 */
import { describe, expect, it } from 'vitest';
import { drawNight } from '../support/confusion/drawn-night.js';
import { measureNight } from '../support/confusion/measured-night.js';
import { noisyStars } from '../support/confusion/noisy-stars.js';
import { compare, type Compared, confusionOf, confusionText } from '../support/confusion/table.js';
import { seeded } from '../support/generator/random.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

/** The goals of the design. */
const FALSE_LOST = 0.005;
const MISSED = 0.02;
const FRAMES = 12;

const badOf = (night: number): 'wide' | 'trailed' | undefined =>
  night % 10 === 9 ? 'wide' : night % 10 === 8 ? 'trailed' : undefined;

describe('verdicts against what was drawn', () => {
  it('by pixels drawn and measured', async () => {
    const folder = tempFolder();
    const compared: Compared[] = [];
    for (let night = 6; night < 12; night++) {
      const random = seeded(1000 + night);
      const drawn = drawNight(random, { frames: FRAMES, bad: badOf(night) });
      compared.push(...compare(drawn, await measureNight(random, drawn.lights, folder)));
    }
    const confusion = confusionOf(compared);
    process.stdout.write(`${confusionText(confusion)}\n`);
    expect(compared).toHaveLength(6 * 2 * FRAMES);
    // One frame of so few is more than the goal: none may be wrong.
    expect(confusion.falseLost).toBe(0);
    expect(confusion.missed).toBe(0);
  });

  it('by figures with the noise of the measurement, over many nights', () => {
    const compared: Compared[] = [];
    for (let night = 0; night < 200; night++) {
      const random = seeded(5000 + night);
      const drawn = drawNight(random, {
        frames: FRAMES,
        bad: badOf(night),
        filters: night % 3 === 0 ? ['Ha', 'OIII', 'SII'] : ['L'],
      });
      compared.push(...compare(drawn, noisyStars(random, drawn.lights)));
    }
    const confusion = confusionOf(compared);
    process.stdout.write(`${confusionText(confusion)}\n`);
    expect(confusion.falseLost).toBeLessThanOrEqual(FALSE_LOST);
    expect(confusion.missed).toBeLessThanOrEqual(MISSED);
  });
});
