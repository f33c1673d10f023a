import { expect, it } from 'vitest';
import { fewDithers } from '../../../src/gather/dialects/draft/classify/few-dithers.js';
import type { EventName } from '../../../src/model/index.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

it('a few lines on something else are no dithers where trains wait for many', () => {
  const kinds = kindsOf(
    rounds(24, 330, (from, i) => [
      [from, 'shutter opens'],
      [from + 300, 'shutter closes'],
      [from + 302, 'free, waits for the dither'],
      ...(i % 8 === 3 ? [[from + 306, `dew strap ${i}.5 percent`] as [number, string]] : []),
      [from + 308, `ping ${i}.5`],
    ]),
  );
  const taken = (strap: EventName, ping: EventName): Map<(typeof kinds)[number], EventName> =>
    new Map([
      [kindLike(kinds, 'shutter opens'), 'exposure-begin'],
      [kindLike(kinds, 'shutter closes'), 'exposure-end'],
      [kindLike(kinds, 'free, waits'), 'dither-ready'],
      [kindLike(kinds, 'dew strap'), strap],
      [kindLike(kinds, 'ping'), ping],
    ]);
  expect(fewDithers(taken('dither-begin', 'dither-end'))).toEqual([kindLike(kinds, 'dew strap')]);
  expect(fewDithers(taken('note', 'dither-begin'))).toEqual([]);
});
