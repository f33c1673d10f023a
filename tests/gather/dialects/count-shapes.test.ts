import fc from 'fast-check';
import { expect, it } from 'vitest';
import { COUNTS } from '../../../src/gather/dialects/draft/time/count-shapes.js';
import { runs } from '../../support/runs.js';

/** What beginnings of lines with counters are made of, and what they are confused with. */
const PIECES = ['0', '12', '345', '0x1f', 'a0', 'beef', 'T', 't', 'ab', 'P', 'h', 'm', 's', 'é', '日', '😀', 'pm'];
const MARKS = [' ', '  ', '\t', '#', '<', '>', '[', '(', '|', '+', '-', '=', ':', '.', ',', '/', '_'];
const BEGINNINGS = fc
  .array(fc.constantFrom(...PIECES, ...MARKS), { minLength: 1, maxLength: 10 })
  .map((pieces) => pieces.join(''));

it('a counter at the beginning of a line is found from there wherever it is found by looking back', () => {
  const found = new Set<number>();
  fc.assert(
    fc.property(BEGINNINGS, (text) => {
      for (const [form, { regExp, parts }] of COUNTS.entries()) {
        regExp.lastIndex = 0;
        const isThere = regExp.test(text);
        if (isThere) found.add(form);
        // Of each form the part is the form itself, so that one is there if and only if the other is.
        if (parts.some((part) => part.isIn(text) !== isThere)) throw new Error(`${form} in ${JSON.stringify(text)}`);
      }
    }),
    runs(3000),
  );
  expect(found.size).toBeGreaterThanOrEqual(COUNTS.length - 2);
});
