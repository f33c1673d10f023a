/**
 * A mount that dithers under the open shutter of the only train, with and without a log of it: the advice is to let the
 * dithers wait, and what the night then truly keeps is compared with the win stated.
 */
import { describe, expect, it } from 'vitest';
import { drawQuickly, type DrawnStar } from '../../support/drawing/draw-stars.js';
import { seeded } from '../../support/generator/random.js';
import type { Scenario } from '../../support/generator/scenario.js';
import { simulate } from '../../support/generator/simulate.js';
import { some } from '../../support/runs.js';
import { draftAlone, draftOf, expectHeld, gainMs, reported, scenarioOf } from './support.js';

const SEEDS = some([1, 2, 11], 1);
const HOURS = 2.5;

/** A short night of one train, its dithers after every fourth frame. */
function alone(seed: number): Scenario {
  const calm = scenarioOf(seed);
  const [pilot] = calm.trains;
  if (pilot === undefined) throw new RangeError('no pilot');
  return {
    ...calm,
    trains: [{ ...pilot, plan: [{ target: 'NGC 281', filter: 'Ha', seconds: 300, count: 999 }] }],
    end: new Date(Date.parse(calm.begin) + HOURS * 3_600_000).toISOString(),
    ditherEvery: 4,
  };
}

/** The same with a dither in every fourth frame, instead of after it. */
function unasked(well: Scenario): Scenario {
  const never = { ...well, ditherEvery: 999 };
  const random = seeded(well.seed);
  const strayDithers = simulate(never).frames.flatMap(({ beginMs, endMs, number }) =>
    number % 4 === 0
      ? [{ at: new Date(beginMs + (0.2 + 0.6 * random.next()) * (endMs - beginMs)).toISOString(), pixels: 5 }]
      : [],
  );
  return { ...never, strayDithers };
}

describe('dithers under the open shutter of the only train', () => {
  it.each(SEEDS)('win the frames, less the time that the dithers then take: random night %i', async (seed) => {
    const well = alone(seed);
    const before = { ...unasked(well), name: `own-shutter-${seed}` };
    const draft = await draftAlone(before, 'dither-through', /of heron$/);
    expect(draft?.winMs).toBeGreaterThan(0);
    expectHeld(draft?.winMs ?? NaN, gainMs(before, well), `win of: ${draft?.title}`);
    expect(draft?.advice).toContain('wait until heron’s exposure has ended');
  });
});

const PX = 128;
/** The second image is so far from the first, px. */
const JUMP_PX = 8;

/** Stars at random, none near another or the edge: on a grid every star has a neighbour in the same direction. */
function field(): DrawnStar[] {
  const random = seeded(7);
  const within = (): number => 16 + (PX - 32) * random.next();
  const stars: DrawnStar[] = [];
  while (stars.length < 18) {
    const star = { x: within(), y: within(), flux: 30_000 + 60_000 * random.next() };
    if (stars.every(({ x, y }) => Math.hypot(x - star.x, y - star.y) > 14)) stars.push(star);
  }
  return stars;
}

/** Stars that jump with the mount: to the side, up, back, down. */
function painter(): NonNullable<Scenario['painter']> {
  const stars = field();
  return ({ strays }) =>
    ({ beginMs, endMs, number, starSize }) => {
      const before = strays.filter(({ fromMs }) => fromMs < beginMs).length;
      const inside = strays.find(({ fromMs }) => fromMs >= beginMs && fromMs < endMs);
      const at = (moves: number) => ({ x: moves % 2 === 0 ? 0 : JUMP_PX, y: moves % 4 < 2 ? 0 : JUMP_PX });
      const first = inside === undefined ? 1 : (inside.fromMs - beginMs) / (endMs - beginMs);
      const path = [{ ...at(before), share: first }, ...(inside ? [{ ...at(before + 1), share: 1 - first }] : [])];
      const shape = { profile: { kind: 'gaussian' as const, fwhm: 1.5 * starSize }, path };
      return {
        width: PX,
        height: PX,
        pixels: () =>
          drawQuickly({
            width: PX,
            height: PX,
            stars,
            shape,
            background: 300,
            electronsPerAdu: 1,
            readNoise: 3,
            seed: number + 1,
          }),
        truth: { fwhm: 1.5 * starSize, trail: 0, flux: 1, sky: 300 },
      };
    };
}

describe('doubled stars that no log explains', () => {
  it.each(SEEDS)('win what waiting dithers win, by headers and pixels alone: random night %i', async (seed) => {
    const well = alone(seed);
    const before = { ...unasked(well), name: `doubled-${seed}`, painter: painter() };
    const isThere = (path: string): boolean => !path.startsWith('logs/');
    const night = await reported(before, { stars: 'full', replay: null, isThere });
    const draft = draftOf(night, 'doubled-stars', /^heron’s stars appear twice/);
    // Where hardly any light is in one of the images, nothing is seen.
    expect(draft?.frames).toBeGreaterThanOrEqual(0.8 * simulate(before).strays.length);
    expectHeld(draft?.winMs ?? NaN, gainMs(before, well), `win of: ${draft?.title}`);
    expect(draft?.evidence.join('; ')).toContain('moves came about every 4 frames');
  });
});
