import { expect, it } from 'vitest';
import { isBounded } from './support/bounded.js';

it('is bounded in each file of attacks, also where others ran before in the same process', () => {
  expect(isBounded()).toBe(true);
});
