import { expect, it } from 'vitest';
import { tooShort } from '../../../src/gather/dialects/draft/classify/too-short.js';
import type { EventName } from '../../../src/model/index.js';
import { kindsOf, rounds } from './support/kinds.js';

it('finds what states a readout, not the exposure', () => {
  const kinds = kindsOf(
    rounds(12, 330, (from, i) => [
      [from + 300, `plate exposed, 300 s, by L`],
      ...(i % 4 === 0 ? [[from + 310, `readout took 2.${i} s`] as [number, string]] : []),
    ]),
  );
  const ends = new Map(kinds.map((kind) => [kind, 'exposure-end' as EventName]));
  expect(tooShort(ends).map(({ wording }) => wording)).toEqual(['readout took # s']);
  // Alone, short exposures are what they are.
  const short = kinds.filter(({ wording }) => wording.startsWith('readout'));
  expect(tooShort(new Map(short.map((kind) => [kind, 'exposure-end' as EventName])))).toEqual([]);
});
