import {
  AstroTime,
  CombineRotation,
  Observer,
  RotateVector,
  Rotation_EQD_HOR,
  RotationMatrix,
  Vector,
} from 'astronomy-engine';

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Ephemeris } from '../../src/sky/ephemeris.js';
import { inAxes, SiteAxes } from '../../src/sky/site-axes.js';
import { runs } from '../support/runs.js';
import { ms } from './invented-site.js';

const instant = fc.integer({ min: ms('1990-01-01T00:00:00Z'), max: ms('2040-01-01T00:00:00Z') });
const angle = (most: number) => fc.double({ min: -most, max: most, noNaN: true });

test('north, west and zenith are those of the library, to the last digit', () => {
  const ephemeris = new Ephemeris();
  fc.assert(
    fc.property(instant, angle(90), angle(360), angle(1), angle(1), angle(1), (atMs, latitude, longitude, x, y, z) => {
      const observer = new Observer(latitude, longitude, 0);
      const time = new AstroTime(new Date(atMs));
      const sky = ephemeris.at(atMs);
      const toDate = new RotationMatrix([sky.slice(9, 12), sky.slice(12, 15), sky.slice(15)]);
      const turn = CombineRotation(toDate, Rotation_EQD_HOR(time, observer));
      const theirs = RotateVector(turn, new Vector(x, y, z, time));
      // No difference but that of 0 and −0.
      const [north, west, zenith] = inAxes(new SiteAxes(observer).at(sky, time), [x, y, z]);
      expect(north - theirs.x).toBe(0);
      expect(west - theirs.y).toBe(0);
      expect(zenith - theirs.z).toBe(0);
    }),
    runs(50),
  );
});
