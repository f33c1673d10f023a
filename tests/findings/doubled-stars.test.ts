import { describe, expect, it } from 'vitest';
import { doubledStars } from '../../src/findings/doubled-stars.js';
import { extended, type FrameStars, type JudgedFrame, type Night } from '../../src/model/index.js';
import { CLEAR_STARS } from '../support/starry-night.js';
import { ask, found, HERON, lights, minutes, nightOf, T0, WREN } from './support.js';

const COUNT = 40;
/** The second image of a doubled frame, px. */
const SECOND = { x: 6, y: 8, share: 0.4, significance: 40 };

interface Plan {
  /** Whether a frame of heron is doubled, by its number. */
  readonly isDoubled: (i: number) => boolean;
  /** Whether the field stays where it was moved to. */
  readonly stays: boolean;
  readonly second?: typeof SECOND;
  /** A second train that exposes meanwhile. */
  readonly isWrenDoubled?: boolean;
}

function nightWith({ isDoubled, stays, second = SECOND, isWrenDoubled }: Plan): Night {
  const heron = lights('heron', { from: 0, seconds: 300, count: COUNT });
  const wren = isWrenDoubled === undefined ? [] : lights('wren', { from: -20, seconds: 12_400, count: 1 });
  const night = nightOf({ frames: [...heron, ...wren], trains: wren.length > 0 ? [HERON, WREN] : [HERON] });
  let x = 0;
  let y = 0;
  const frames: Record<string, FrameStars> = {};
  for (const [i, { id }] of heron.entries()) {
    const own = isDoubled(i);
    frames[id] = { ...CLEAR_STARS, shift: { x, y, rotation: 0, matched: 90 }, ...(own ? { doubled: second } : {}) };
    if (own && stays) [x, y] = [x + second.x, y + second.y];
  }
  for (const { id } of wren) frames[id] = { ...CLEAR_STARS, ...(isWrenDoubled ? { doubled: SECOND } : {}) };
  const causeOf = ({ exposure }: JudgedFrame) => ({
    kind: 'doubled' as const,
    verdict: 'lost' as const,
    by: 'pixels' as const,
    span: exposure,
    overlapMs: 300_000,
    evidence: '',
    certainty: 'measured' as const,
    sources: [],
  });
  return {
    ...night,
    stars: { frames, pairs: [], pointings: [], warnings: [] },
    accounts: {
      ...night.accounts,
      lights: night.accounts.lights.map((f) =>
        frames[f.id]?.doubled ? extended(f, { verdict: 'lost' as const, causes: [causeOf(f)] }) : f,
      ),
    },
  };
}

const everyFourth = (i: number): boolean => i % 4 === 2;
/** As chance has it. */
const CHANCE = new Set([3, 4, 11, 13, 24, 31, 36]);
const seldom = (i: number): boolean => CHANCE.has(i);

describe('stars that stand twice', () => {
  it('in a rhythm, after which the field stays, are dithers that did not wait', () => {
    const [finding, ...more] = found(doubledStars, nightWith({ isDoubled: everyFourth, stays: true }));
    expect(more).toEqual([]);
    expect(finding?.title).toBe('heron’s stars appear twice in 10 frames: the mount was moved under the open shutter');
    expect(minutes(finding?.costMs)).toBeCloseTo(50, 6);
    // A quarter of a minute for each move between two exposures.
    expect(minutes(finding?.winMs)).toBeCloseTo(50 - 2.5, 6);
    expect(finding?.evidence.join('; ')).toContain(
      'the field stayed at its new position after 10 and came back after 0; moves came about every 4 frames',
    );
    expect(finding?.advice).toMatch(/^Let dithers wait until heron’s exposure has ended/);
    expect(finding?.confidence).toBe('high');
    expect(finding).not.toHaveProperty('caution');
  });

  it('now and then, after which the field stays, could have waited as well', () => {
    const [finding] = found(doubledStars, nightWith({ isDoubled: seldom, stays: true }));
    expect(finding?.advice).toMatch(/^Find out what moved the mount while heron’s shutter was open and left it there/);
    expect(finding?.evidence.join()).not.toContain('moves came');
    expect(minutes(finding?.winMs)).toBeCloseTo(7 * 4.75, 6);
  });

  it('after which the field comes back are no dithers: nothing is promised', () => {
    const [finding] = found(doubledStars, nightWith({ isDoubled: seldom, stays: false }));
    expect(finding?.title).toBe('heron’s stars appear twice in 7 frames');
    expect(finding?.advice).toContain('wind, a cable that catches, someone at the pier. A dither would not have moved');
    expect(finding).not.toHaveProperty('winMs');
    expect(finding?.caution).toBeDefined();
  });

  it('are the train’s own where another one stood still, and the mount’s where it did not', () => {
    const [own] = found(doubledStars, nightWith({ isDoubled: seldom, stays: true, isWrenDoubled: false }));
    expect(own?.advice).toMatch(/^Look at heron itself, not at the mount/);
    expect(own?.evidence.join('; ')).toContain('another train exposed through 7 of them: its stars appear once');
    const [both] = found(doubledStars, nightWith({ isDoubled: seldom, stays: true, isWrenDoubled: true }));
    expect(both?.advice).toMatch(/^Find out what moved the mount/);
  });

  it('may be tails where the second image is near and faint', () => {
    const second = { x: 3, y: 3, share: 0.1, significance: 20 };
    const [finding] = found(doubledStars, nightWith({ isDoubled: seldom, stays: false, second }));
    expect(finding?.evidence.join('; ')).toContain('in 7 of 7 the second image is so close and faint');
  });

  it('are not found in one frame, nor where an interruption is known', () => {
    expect(found(doubledStars, nightWith({ isDoubled: (i) => i === 9, stays: true }))).toEqual([]);
    const night = nightWith({ isDoubled: everyFourth, stays: true });
    const known = night.accounts.lights.map((f) =>
      extended(f, { causes: f.causes.map((c) => ({ ...c, span: { startMs: T0, endMs: T0 + 4000 } })) }),
    );
    expect(found(doubledStars, { ...night, accounts: { ...night.accounts, lights: known } })).toEqual([]);
  });

  it('are not assessed where no pixels were measured', () => {
    expect(ask(doubledStars, nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) }))).toEqual({
      notAssessed: 'stars measured in the pixels',
    });
  });
});
