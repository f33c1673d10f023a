/**
 * Every finding is put to the test: by following its advice in the simulator, by what it cost where nothing can be
 * promised, or, where it is a matter of quality alone, by stating a price and no minute. What is listed here as
 * followed has a test beside this one that names it.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FINDINGS } from '../../../src/findings/index.js';
import { sum } from '../../../src/model/index.js';
import { simulate } from '../../support/generator/simulate.js';
import { USUAL_NAMES } from '../../support/nights.js';
import { truthOf } from '../../support/generator/truth.js';
import { some } from '../../support/runs.js';
import { replayedNight } from '../../support/replayed-night.js';
import { draftAlone, expectHeld, scenarioOf } from './support.js';

/** No minutes: a price in its own unit, checked in the test of its name. */
const QUALITY = [
  'cooling',
  'larger-stars',
  'flexure',
  'field-rotation',
  'pair-offset',
  'pair-rotation',
  'dither-spread',
  'dither-repeats',
  'clock-offset',
  'short-lights',
];
/** A cost that nobody can promise to win back; what `calibration` lacks is made up for at the desk. */
const COST_ALONE = [
  'star-gap',
  'aborted-exposures',
  'hold',
  'guiding-bursts',
  'guiding-gusts',
  'guiding-altitude',
  'calibration',
  'dimmed-alone',
  'dimmed-together',
  'sudden-defocus',
  'centring',
];
const tests = readdirSync(new URL('./', import.meta.url))
  .filter((name) => name.endsWith('.test.ts') && name !== 'coverage.test.ts')
  .map((name) => readFileSync(new URL(name, import.meta.url), 'utf8'))
  .join('\n');

describe('every finding', () => {
  const others = new Set([...QUALITY, ...COST_ALONE]);

  it.each(FINDINGS.map(({ id }) => id).filter((id) => !others.has(id)))('%s has its advice followed', (id) => {
    expect(tests).toContain(`'${id}'`);
  });

  it('is known by its own name', () => {
    const ids = new Set(FINDINGS.map(({ id }) => id));
    for (const id of others) expect(ids.has(id), id).toBe(true);
  });

  it.each(USUAL_NAMES)('states no minute for quality, and promises nothing that nobody can: %s', (name) => {
    for (const { id, title, costMs, winMs, price } of replayedNight(name).findings.ranked) {
      if (QUALITY.includes(id)) {
        expect([costMs, winMs ?? 0], title).toEqual([0, 0]);
        expect(price, title).not.toBe('');
      }
      if (COST_ALONE.includes(id)) expect(winMs ?? 0, title).toBe(0);
    }
  });
});

describe('a spell of wind', () => {
  it.each(some([1, 2, 11], 1))('costs the exposures that it shook: random night %i', async (seed) => {
    const spell = { from: '2026-10-14T21:00:00.000Z', to: '2026-10-14T22:10:00.000Z' };
    const before = {
      ...scenarioOf(seed),
      name: `gusts-${seed}`,
      guidingEverySeconds: 6,
      roughSpells: [{ ...spell, sigmaArcsec: 5 }],
    };
    const draft = await draftAlone(before, 'guiding-gusts', /^Guiding was rough/);
    const [fromMs, toMs] = [Date.parse(spell.from), Date.parse(spell.to)];
    const shaken = simulate(before).frames.filter(
      (f) => Math.min(f.endMs, toMs) - Math.max(f.beginMs, fromMs) > (f.endMs - f.beginMs) / 2,
    );
    expectHeld(draft?.costMs ?? NaN, sum(shaken.map((f) => f.endMs - f.beginMs)), `cost of: ${draft?.title}`);
    expect(draft?.winMs).toBeUndefined();
  });
});

describe('exposures that somebody ends', () => {
  it.each(some([3, 4, 12], 1))('cost what the shutter was open in vain: random night %i', async (seed) => {
    const before = {
      ...scenarioOf(seed),
      name: `aborts-${seed}`,
      aborts: [
        { train: 'wren', at: '2026-10-14T20:10:00.000Z' },
        { train: 'wren', at: '2026-10-14T23:40:00.000Z' },
      ],
    };
    const draft = await draftAlone(before, 'aborted-exposures', /^wren ended 2 exposures early/);
    const { totals } = truthOf('2026-10-14', simulate(before), before.trains);
    const lost = (of: typeof totals): number => sum(of.filter((t) => t.train === 'wren').map((t) => t.seconds.lost));
    const without = truthOf('2026-10-14', simulate({ ...before, aborts: [] }), before.trains).totals;
    // Drawn mishaps are the same on both nights but for the aborts.
    expect(Math.abs((draft?.costMs ?? NaN) / 1000 - (lost(totals) - lost(without)))).toBeLessThan(1);
    expect(draft?.winMs).toBeUndefined();
  });
});
