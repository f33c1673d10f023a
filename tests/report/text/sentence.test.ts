import { expect, it } from 'vitest';
import { sentence } from '../../../src/report/text/sentence.js';

it('begins with a capital and ends with a stop, where a train’s name keeps its letters', () => {
  expect(sentence('no rig file in the folder')).toBe('No rig file in the folder.');
  expect(sentence('Why not?')).toBe('Why not?');
  expect(sentence('wren is 7 s ahead', ['heron', 'wren'])).toBe('wren is 7 s ahead.');
  expect(sentence('frames/a.fits is empty')).toBe('frames/a.fits is empty.');
  expect(sentence('night.json is damaged')).toBe('night.json is damaged.');
  expect(sentence('wrens are birds', ['wren'])).toBe('Wrens are birds.');
});
