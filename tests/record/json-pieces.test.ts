import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonPieces } from '../../src/record/index.js';
import { runs } from '../support/runs.js';

const whole = (value: object): string => `${JSON.stringify(value, null, 2)}\n`;
const joined = (value: object): string => [...jsonPieces(value)].join('');

describe('the pieces of a record', () => {
  it('are, one after another, what JSON.stringify writes', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.option(fc.jsonValue(), { nil: undefined })), (value) => {
        expect(joined(value)).toBe(whole(value));
      }),
      runs(200),
    );
  });

  it.each([0, 1, 499, 500, 501, 1000, 1201])('are the same text for a list of %i', (count) => {
    const items = Array.from({ length: count }, (_, i) =>
      i % 3 === 0 ? { i, list: [i, null], none: undefined } : [i],
    );
    const value = { before: 'x', 'a "key"': items, none: undefined, after: {} };
    expect(joined(value)).toBe(whole(value));
    expect([...jsonPieces(value)].length).toBeGreaterThan(count / 500);
  });
});
