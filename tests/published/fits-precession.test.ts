/** Precession of header coordinates against Meeus, Astronomical Algorithms, 2nd ed., example 21.b (from memory). */
import { expect, it } from 'vitest';
import { precessToJ2000 } from '../../src/gather/fits/places.js';

it('brings θ Persei from 2028-11-13.19 back to J2000.0', () => {
  // Mean place of 2028-11-13.19 TD, JDE 2462088.69: α 41.547214°, δ +49.348483°.
  const equinox = 2000 + (2462088.69 - 2451545) / 365.25;
  const { raDeg, decDeg } = precessToJ2000({ raDeg: 41.547214, decDeg: 49.348483 }, equinox);
  // J2000.0 with the proper motion of the example applied: α 41.054063°, δ +49.227750°.
  expect(raDeg).toBeCloseTo(41.054063, 5);
  expect(decDeg).toBeCloseTo(49.22775, 5);
});
