import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { csvText } from '../../../src/report/formats/csv-text.js';

/** Texts in which commas, quotes, line breaks and blanks stand at every place; none begins like a formula. */
const plain = fc
  .string({ unit: fc.constantFrom(',', '"', '\n', '\r', ' ', '=', '-', 'a', 'é', '1') })
  .filter((text) => !/^[=+\-@\t\r]/.test(text));
const rows = fc.array(
  fc.array(fc.oneof(plain, fc.double({ noNaN: true }), fc.integer()), { minLength: 2, maxLength: 5 }),
  {
    minLength: 1,
    maxLength: 6,
  },
);

describe('tables as CSV', () => {
  it('are what an independent writer of RFC 4180 makes of them', () => {
    fc.assert(
      fc.property(rows, (table) => {
        expect(csvText(table)).toBe(`${Papa.unparse(table, { newline: '\r\n' })}\r\n`);
      }),
    );
  });

  it('are read back the same by an independent reader', () => {
    fc.assert(
      fc.property(rows, (table) => {
        const { data } = Papa.parse(csvText(table), { newline: '\r\n' });
        expect(data).toEqual([...table.map((row) => row.map(String)), ['']]);
      }),
    );
  });

  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '=1+1\nof two lines'])(
    'writes %j, which a spreadsheet would run, with an apostrophe before it',
    (text) => {
      expect(csvText([[text, 'M 33']])).toBe(`"'${text}",M 33\r\n`);
    },
  );

  it('leaves numbers as they are', () => {
    expect(csvText([[-1.5, 0, 1e21]])).toBe('-1.5,0,1e+21\r\n');
  });
});
