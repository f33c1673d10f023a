import { describe, expect, it } from 'vitest';
import {
  centreOf,
  compose,
  firstTrain,
  inverse,
  registerTrains,
  sharedField,
  starListOf,
  transform,
  wrapDegrees,
} from '../../../src/stars/registration/index.js';
import { cameraAt, drawn, randomOf, SENSOR, skyOf } from './drawn-sky.js';

/** Heron 480 mm and wren 600 mm with the same pixels: 1.616 and 1.293 arcsec a pixel. */
const HERON = 0.6188;
const WREN = 0.7735;

function pairOf(seed: number, away: number, mirrored: boolean, wrenScale = WREN) {
  const random = randomOf(seed);
  const sky = skyOf(seed, 1200, 7500);
  const heron = cameraAt({ x: 0, y: 0 }, 33, HERON);
  const wren = cameraAt(
    { x: away, y: 0.5 * away },
    random() * 360,
    wrenScale * (1 + 0.06 * (random() - 0.5)),
    mirrored,
  );
  const noise = { random, most: 1500, missing: 0.05, extra: 0.05 };
  return {
    truth: compose(wren, inverse(heron)),
    a: starListOf(drawn(sky, { camera: heron, ...noise })),
    // Another filter: stars of other colours are brighter by other amounts.
    b: starListOf(drawn(sky, { camera: wren, ...noise, colour: 0.3 })),
  };
}

describe('one train laid on another', () => {
  it.each([
    { away: 0, mirrored: false, expected: { scale: 1.25, mirrored: false } },
    { away: 1500, mirrored: true, expected: { scale: 1.25 } },
    { away: 2600, mirrored: false, expected: {} },
    { away: 2600, mirrored: true, expected: {} },
    // A focal length typed wrong in the rig file.
    { away: 800, mirrored: false, expected: { scale: 0.8 } },
  ])('is found, $away arcsec away, mirrored $mirrored, knowing $expected', ({ away, mirrored, expected }) => {
    for (let seed = 1; seed <= 3; seed++) {
      const { truth, a, b } = pairOf(seed, away, mirrored);
      const answer = registerTrains(firstTrain(a), b, expected);
      expect(answer.state).toBe('registered');
      if (answer.state !== 'registered') continue;
      expect(answer.similarity.mirrored).toBe(mirrored);
      // The goals of the project: scale within 0.02 %, rotation within 0.01°.
      expect(Math.abs(answer.similarity.scale / truth.scale - 1)).toBeLessThan(2e-4);
      expect(Math.abs(wrapDegrees(answer.similarity.rotation - truth.rotation))).toBeLessThan(0.01);
      const found = transform(answer.similarity, centreOf(SENSOR));
      const there = transform(truth, centreOf(SENSOR));
      expect(Math.hypot(found.x - there.x, found.y - there.y)).toBeLessThan(0.1);
    }
  });

  it('is found with a third of the field in common', () => {
    const { truth, a, b } = pairOf(7, 3600, false);
    expect(sharedField(inverse(truth), SENSOR, SENSOR)).toBeLessThan(0.33);
    expect(registerTrains(firstTrain(a), b, { scale: 1.25 }).state).toBe('registered');
  });

  it('is declined when the rig says that both see the sky the same way round and they do not', () => {
    const { a, b } = pairOf(2, 0, true);
    expect(registerTrains(firstTrain(a), b, { scale: 1.25, mirrored: false }).state).toBe('unregistered');
  });
});
