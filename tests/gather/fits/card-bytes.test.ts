import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainValue } from '../../../src/gather/fits/card-bytes.js';
import { parseValue } from '../../../src/gather/fits/card-values.js';
import { parseDateTime } from '../../../src/gather/fits/dates.js';
import { runs } from '../../support/runs.js';

/** A card as Latin-1, and its bytes behind those of another. */
function card(field: string): { image: string; bytes: Buffer } {
  const image = `KEYWORD = ${field}`.padEnd(80).slice(0, 80);
  return { image, bytes: Buffer.concat([Buffer.alloc(80, '9'), Buffer.from(image, 'latin1'), Buffer.alloc(80, '9')]) };
}

describe('values of plain cards', () => {
  const number = fc
    .tuple(
      fc.constantFrom('', '-', '+', '- '),
      fc.string({ unit: fc.constantFrom('0', '1', '5', '9', '.', 'E', ' ', 'x'), maxLength: 20 }),
      fc.constantFrom(' / cm', '/', ' ', '5', ''),
    )
    .map(([sign, digits, after]) => `${`${sign}${digits}`.padStart(20)}${after}`);
  const text = fc
    .string({ unit: fc.constantFrom('a', 'B', '7', ' ', "'", '&', '/', '\t', 'é', '~'), maxLength: 72 })
    .map((inside) => `'${inside}`);

  it.each([
    ['numbers', number],
    ['texts', text],
    ['logicals and whatever else', fc.string({ unit: fc.constantFrom('T', 'F', ' ', '/', '1'), maxLength: 40 })],
  ])('are those that their texts give: %s', (_, field) => {
    fc.assert(
      fc.property(field, (written) => {
        const { image, bytes } = card(written);
        const found = plainValue(bytes, 80);
        if (found !== undefined) expect(found).toBe(parseValue(image, 8));
      }),
      runs(2000),
    );
  });

  it('are found where nothing is odd, and left to others where a text goes on or holds a quote', () => {
    const found = (field: string) => plainValue(card(field).bytes, 80);
    expect(found('              -10.30 / C')).toBe(-10.3);
    expect(found("'NGC 281 '           / name")).toBe('NGC 281');
    expect(found("''")).toBe('');
    for (const odd of ["'goes on&'", "'O''Neill'", "'open", "'é'", '                   T', '12.5', '1.5E3'])
      expect(found(odd)).toBeUndefined();
  });
});

describe('dates in their usual form', () => {
  it('are the same as those that their pattern reads', () => {
    const two = fc.integer({ min: 0, max: 70 }).map((n) => String(n).padStart(2, '0'));
    const parts = fc.tuple(fc.constantFrom('2026', '2024', '1999', '0099', '2O26'), two, two, two, two, two);
    const fraction = fc.constantFrom('', '.', '.5', '.25', '.250', '.2505', '.x');
    fc.assert(
      fc.property(parts, fraction, fc.constantFrom('T', 't', ' '), ([year, ...rest], part, mark) => {
        const [month, day, hour, minute, second] = rest.map((n, i) =>
          i < 2 ? String(Number(n) % 35).padStart(2, '0') : n,
        );
        const text = `${year}-${month}-${day}${mark}${hour}:${minute}:${second}${part}`;
        // The pattern lets a blank follow; the usual form has none.
        expect(parseDateTime(text)).toEqual(parseDateTime(`${text} `));
      }),
      runs(2000),
    );
    expect(parseDateTime('2026-10-14T19:42:10.250')?.ms).toBe(Date.UTC(2026, 9, 14, 19, 42, 10, 250));
  });
});
