import { describe, expect, it } from 'vitest';
import type { Similarity } from '../../../src/model/index.js';
import { centreOf, compose, inverse, transform, wrapDegrees } from '../../../src/stars/registration/index.js';
import { referenceOf, register, SAME_TRAIN } from '../../../src/stars/registration/register.js';
import { starListOf } from '../../../src/stars/registration/star-list.js';
import { cameraAt, drawn, randomOf, SENSOR, skyOf } from './drawn-sky.js';

const SCALE = 0.683;

interface Errors {
  readonly tried: number;
  readonly shiftPx: number[];
  readonly rotationDeg: number[];
}

/** Frames of several skies laid on a reference each; errors at the centre of the field. */
function errorsOf(most: number, strips: boolean, guessed: boolean): Errors {
  const errors: Errors = { tried: 40, shiftPx: [], rotationDeg: [] };
  for (let f = 0; f < 4; f++) {
    const random = randomOf(900 + f);
    const sky = skyOf(f, 600);
    const first = cameraAt({ x: 0, y: 0 }, 20, SCALE);
    const noise = { random, most, strips, missing: 0.1, extra: 0.1 };
    const reference = referenceOf(starListOf(drawn(sky, { camera: first, ...noise })));
    for (let i = 0; i < errors.tried / 4; i++) {
      const at = { x: (random() - 0.5) * 60, y: (random() - 0.5) * 60 };
      const turn = 20 + (i % 2 === 1 && !guessed ? 180 : 0) + (random() - 0.5) * 0.1;
      // Focus moves the scale by parts in ten thousand.
      const camera = cameraAt(at, turn, SCALE * (1 + 2e-4 * (random() - 0.5)));
      const list = starListOf(drawn(sky, { camera, ...noise }));
      const guess: Similarity = { x: 0, y: 0, rotation: 0, scale: 1, mirrored: false };
      const answer = register(reference, list, SAME_TRAIN, guessed ? guess : undefined);
      if (answer.state !== 'registered') continue;
      const truth = compose(camera, inverse(first));
      const centre = centreOf(SENSOR);
      const found = transform(answer.similarity, centre);
      const there = transform(truth, centre);
      errors.shiftPx.push(Math.hypot(found.x - there.x, found.y - there.y));
      errors.rotationDeg.push(Math.abs(wrapDegrees(answer.similarity.rotation - truth.rotation)));
    }
  }
  return errors;
}

const middle = (values: number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? Infinity;

// The goals are those of the project: 99 % of frames with 20 stars or more, median error of the shift 0.02 px, none above
// 0.1 px with 100 stars or more, rotation within 0.01°.
describe('a frame laid on the reference of its train, with stars missing and invented, turned or flipped', () => {
  it.each([
    { most: 22, strips: false, guessed: false },
    { most: 110, strips: false, guessed: false },
    { most: 110, strips: true, guessed: false },
    { most: 110, strips: false, guessed: true },
    { most: 2000, strips: false, guessed: true },
  ])(
    'is found to hundredths of a pixel: $most stars, strips $strips, guessed $guessed',
    ({ most, strips, guessed }) => {
      const { tried, shiftPx, rotationDeg } = errorsOf(most, strips, guessed);
      expect(shiftPx.length).toBe(tried);
      expect(middle(shiftPx)).toBeLessThan(0.02);
      expect(Math.max(...rotationDeg)).toBeLessThan(0.01);
      if (most >= 110) expect(Math.max(...shiftPx)).toBeLessThan(0.1);
    },
  );

  it('is found the same way with a guess and without', () => {
    const sky = skyOf(3, 600);
    const random = randomOf(5);
    const first = cameraAt({ x: 0, y: 0 }, 0, SCALE);
    const reference = referenceOf(starListOf(drawn(sky, { camera: first, random, most: 300 })));
    const list = starListOf(drawn(sky, { camera: cameraAt({ x: 25, y: -14 }, 0.02, SCALE), random, most: 300 }));
    const guess = { x: 20, y: 20, rotation: 0, scale: 1, mirrored: false };
    const [blind, guessed] = [register(reference, list, SAME_TRAIN), register(reference, list, SAME_TRAIN, guess)];
    if (blind.state !== 'registered' || guessed.state !== 'registered') throw new Error('not registered');
    expect(guessed.similarity.x).toBeCloseTo(blind.similarity.x, 3);
    expect(guessed.similarity.y).toBeCloseTo(blind.similarity.y, 3);
    expect(guessed.matched).toBe(blind.matched);
  });

  it('is found in spite of a guess that is wrong', () => {
    const sky = skyOf(4, 600);
    const random = randomOf(6);
    const first = cameraAt({ x: 0, y: 0 }, 0, SCALE);
    const reference = referenceOf(starListOf(drawn(sky, { camera: first, random, most: 300 })));
    const list = starListOf(drawn(sky, { camera: cameraAt({ x: 25, y: -14 }, 180.1, SCALE), random, most: 300 }));
    const answer = register(reference, list, SAME_TRAIN, { x: 0, y: 0, rotation: 0, scale: 1, mirrored: false });
    expect(answer.state).toBe('registered');
    if (answer.state === 'registered') expect(Math.abs(answer.similarity.rotation)).toBeCloseTo(179.9, 2);
  });
});

describe('star positions', () => {
  it('through cloud count as before: a tenth of the light, fewer stars, the same place', () => {
    const sky = skyOf(8, 600);
    const random = randomOf(9);
    const first = cameraAt({ x: 0, y: 0 }, 0, SCALE);
    const reference = referenceOf(starListOf(drawn(sky, { camera: first, random, most: 1500 })));
    const camera = cameraAt({ x: 5, y: 5 }, 0, SCALE);
    const list = starListOf(drawn(sky, { camera, random, most: 60, transparency: 0.1 }));
    const answer = register(reference, list, SAME_TRAIN);
    expect(answer.state).toBe('registered');
  });

  it('that are not finite, or without light, are left out', () => {
    const good = drawn(skyOf(1, 1200), { camera: cameraAt({ x: 0, y: 0 }, 0, SCALE), random: randomOf(1), most: 10 });
    const first = good[0];
    if (!first) throw new Error('no star');
    expect(starListOf([...good, { ...first, x: NaN }, { ...first, flux: 0 }, { ...first, y: Infinity }]).count).toBe(
      10,
    );
  });
});
