/**
 * Verdicts against the truth that was drawn: random nights as pixels, measured and judged as a user's are. The table of a
 * larger run, and what it is made of, stands in docs/verdicts.md.
 */
import { describe, expect, it } from 'vitest';
import { drawNight } from '../support/confusion/drawn-night.js';
import { measureNight } from '../support/confusion/measured-night.js';
import { noiseOf, noisyStars } from '../support/confusion/noisy-stars.js';
import { compare, type Compared, type Confusion, confusionOf, confusionText } from '../support/confusion/table.js';
import { seeded } from '../support/generator/random.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { some } from '../support/runs.js';

cleanUp();

/** The goals of the design. */
const FALSE_LOST = 0.005;
const MISSED = 0.02;
const FRAMES = 12;
const NIGHTS = some(
  Array.from({ length: 120 }, (_, i) => i),
  20,
);
/** One of them trailed and one wide as a whole. */
const DRAWN = some([8, 9, 6, 7, 10, 11], 2);

const badOf = (night: number): 'wide' | 'trailed' | undefined =>
  night % 10 === 9 ? 'wide' : night % 10 === 8 ? 'trailed' : undefined;

/** Some nights as pixels. */
async function measuredNights(): Promise<Compared[]> {
  const folder = tempFolder();
  const compared: Compared[] = [];
  for (const night of DRAWN) {
    const random = seeded(1000 + night);
    const drawn = drawNight(random, { frames: FRAMES, bad: badOf(night) });
    compared.push(...compare(drawn, await measureNight(random, drawn.lights, folder)));
  }
  return compared;
}

function report(title: string, compared: readonly Compared[]): Confusion {
  const confusion = confusionOf(compared);
  process.stdout.write(`${title} (${compared.length} frames)\n${confusionText(confusion)}\n`);
  return confusion;
}

describe('verdicts against what was drawn', async () => {
  const measured = await measuredNights();

  it('by pixels drawn and measured', () => {
    const { falseLost, missed } = report('Drawn and measured', measured);
    expect(measured).toHaveLength(DRAWN.length * 2 * FRAMES);
    // One frame of so few is more than the goal: none may be wrong.
    expect(falseLost).toBe(0);
    expect(missed).toBe(0);
  });

  it('by figures with the noise found in those pixels, over many nights', () => {
    const noise = noiseOf(measured);
    const compared: Compared[] = [];
    for (const night of NIGHTS) {
      const random = seeded(5000 + night);
      const filters = night % 3 === 0 ? ['Ha', 'OIII', 'SII'] : ['L'];
      const drawn = drawNight(random, { frames: FRAMES, bad: badOf(night), filters });
      compared.push(...compare(drawn, noisyStars(random, drawn.lights, noise)));
    }
    const { falseLost, missed } = report(`Figures with noise ${JSON.stringify(noise)}`, compared);
    expect(falseLost).toBeLessThanOrEqual(FALSE_LOST);
    expect(missed).toBeLessThanOrEqual(MISSED);
  });
});
