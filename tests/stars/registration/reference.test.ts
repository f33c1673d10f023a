import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Registration } from '../../../src/model/index.js';
import {
  centreOf,
  firstTrain,
  registerTrains,
  type StarList,
  transform,
  wrapDegrees,
} from '../../../src/stars/registration/index.js';
import { referenceOf, register, SAME_TRAIN } from '../../../src/stars/registration/register.js';
import { SENSOR } from './drawn-sky.js';

interface Answer {
  readonly centre: readonly [number, number];
  readonly rotation: number;
  readonly scale: number;
}
type Positions = readonly (readonly [number, number])[];
const read = (name: string): unknown => JSON.parse(readFileSync(new URL(`reference/${name}`, import.meta.url), 'utf8'));
const lists = read('lists.json') as { readonly frames: readonly Positions[]; readonly trains: readonly Positions[] };
const theirs = read('astroalign.json') as { readonly frames: readonly Answer[]; readonly trains: readonly Answer[] };

/** Positions alone, brightest first, each as good as the other: what the library was given. */
function listOf(positions: Positions): StarList {
  return {
    count: positions.length,
    x: Float64Array.from(positions, (p) => p[0]),
    y: Float64Array.from(positions, (p) => p[1]),
    sigma: new Float64Array(positions.length).fill(0.05),
  };
}

function difference(ours: Registration, their: Answer | undefined) {
  if (ours.state !== 'registered' || !their) throw new Error('not registered');
  const centre = transform(ours.similarity, centreOf(SENSOR));
  return {
    centrePx: Math.hypot(centre.x - their.centre[0], centre.y - their.centre[1]),
    rotationDeg: Math.abs(wrapDegrees(ours.similarity.rotation - their.rotation)),
    scale: Math.abs(ours.similarity.scale / their.scale - 1),
  };
}

// astroalign 2.4.1 (Beroiz, Cabral & Sanchez 2020, A&C 32, 100384) on the same lists; recipe in reference/README.md.
describe('the same star lists through astroalign', () => {
  const [first, ...others] = lists.frames.map(listOf);
  if (!first) throw new Error('no lists');

  it('frames agree within 0.05 px, flipped ones as well', () => {
    const reference = referenceOf(first);
    const apart = others.map((list, i) => difference(register(reference, list, SAME_TRAIN), theirs.frames[i]));
    expect(apart).toHaveLength(11);
    expect(Math.max(...apart.map((d) => d.centrePx))).toBeLessThan(0.05);
    expect(Math.max(...apart.map((d) => d.rotationDeg))).toBeLessThan(0.001);
  });

  it('trains agree in place, rotation and scale', () => {
    const apart = lists.trains.map((list, i) =>
      difference(registerTrains(firstTrain(first), listOf(list)), theirs.trains[i]),
    );
    expect(apart).toHaveLength(2);
    for (const d of apart) {
      expect(d.centrePx).toBeLessThan(0.05);
      expect(d.rotationDeg).toBeLessThan(0.001);
      expect(d.scale).toBeLessThan(2e-5);
    }
  });
});
