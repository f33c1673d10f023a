import { expect, it } from 'vitest';
import { lackingFor } from '../../src/sorting/settings.js';
import { lights, nightOf } from '../findings/support.js';

it('flats that are missing are named by their filter, or as those without one', () => {
  const frames = ['Ha', 'None'].flatMap((filter, i) =>
    lights('heron', { from: 2000 * i, seconds: 300, count: 3, filter }),
  );
  const night = nightOf({ frames });
  expect(lackingFor(night.accounts.lights, night).filter((said) => said.includes('flats'))).toEqual([
    'no flats through Ha for 3 frames of heron',
    'no flats without a filter for 3 frames of heron',
  ]);
});
