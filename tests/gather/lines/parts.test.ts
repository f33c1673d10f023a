import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { daysFromCivil, wallMs } from '../../../src/gather/lines/civil-time.js';
import { indexLines, type LineIndex } from '../../../src/gather/lines/line-index.js';
import { plainNumber } from '../../../src/gather/lines/number-bytes.js';
import { rfc3339 } from '../../../src/gather/lines/rfc3339.js';
import { SampleColumns } from '../../../src/gather/lines/sample-columns.js';
import { WarningTally } from '../../../src/gather/lines/warning-tally.js';

describe('RFC 3339 times', () => {
  it('agrees with the platform on every instant and offset', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: Date.UTC(1900, 0, 1), max: Date.UTC(2199, 11, 31) }),
        fc.integer({ min: -14 * 60, max: 14 * 60 }),
        (atMs, offset) => {
          const wall = new Date(atMs + offset * 60_000).toISOString().slice(0, -1);
          const two = (n: number): string => String(n).padStart(2, '0');
          const zone = `${offset < 0 ? '-' : '+'}${two(Math.floor(Math.abs(offset) / 60))}:${two(Math.abs(offset) % 60)}`;
          expect(rfc3339(wall + zone)).toBe(atMs);
        },
      ),
    );
  });

  // RFC 3339, section 5.8, the examples; the leap second counts as the first of the next minute.
  it.each([
    ['1985-04-12T23:20:50.52Z', Date.UTC(1985, 3, 12, 23, 20, 50, 520)],
    ['1996-12-19T16:39:57-08:00', Date.UTC(1996, 11, 20, 0, 39, 57)],
    ['1990-12-31T23:59:60Z', Date.UTC(1991, 0, 1)],
    ['1990-12-31T15:59:60-08:00', Date.UTC(1991, 0, 1)],
    ['1937-01-01T12:00:27.87+00:20', Date.UTC(1937, 0, 1, 11, 40, 27, 870)],
  ])('reads %s', (text, expected) => {
    expect(rfc3339(text)).toBe(expected);
  });

  it('cuts digits beyond the millisecond off', () => {
    expect(rfc3339('2026-10-14T19:42:10.2509999Z')).toBe(Date.UTC(2026, 9, 14, 19, 42, 10, 250));
  });

  it.each([
    '',
    '2026-10-14',
    '2026-10-14T19:42:10',
    '2026-10-14T19:42:10.Z',
    '2026-13-14T19:42:10Z',
    '2026-02-29T19:42:10Z',
    '2026-10-14T24:00:00Z',
    '2026-10-14T19:60:10Z',
    '2026-10-14T19:42:61Z',
    '2026-10-14T19:42:10+1:00',
    '2026-10-14T19:42:10+0100',
    '2026-10-14T19:42:10Z ',
    'x026-10-14T19:42:10Z',
    '2026-10-14T19:42:1xZ',
    '２026-10-14T19:42:10Z',
  ])('refuses %j', (text) => {
    expect(rfc3339(text)).toBeNaN();
  });
});

describe('the civil calendar', () => {
  it('agrees with the platform on every day', () => {
    fc.assert(
      fc.property(fc.integer({ min: -700_000, max: 700_000 }), (days) => {
        const date = new Date(days * 86_400_000);
        expect(daysFromCivil(date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate())).toBe(days);
      }),
    );
  });

  it('has no 30 February, no hour 25, and midnight at hour 24', () => {
    expect(wallMs(2026, 2, 30, 0, 0, 0, 0)).toBeNaN();
    expect(wallMs(2026, 2, 5, 0, 0, 0, 0)).toBe(Date.UTC(2026, 1, 5));
    expect(wallMs(2026, 1, 36, 0, 0, 0, 0)).toBeNaN();
    expect(wallMs(2026, 1, 37, 0, 0, 0, 0)).toBeNaN();
    expect(wallMs(2026, 2, 3, 25, 0, 0, 0)).toBeNaN();
    expect(wallMs(2026, 2, 3, 24, 0, 0, 0)).toBe(Date.UTC(2026, 1, 4));
    // The minute before is remembered.
    expect(wallMs(2026, 2, 3, 24, 0, 1, 0)).toBeNaN();
    expect(wallMs(2026, 2, 3, 1, 0, 0, 0)).toBe(Date.UTC(2026, 1, 3, 1));
    expect(wallMs(2026, 2, 3, 0, 100, 0, 0)).toBeNaN();
    expect(wallMs(2026, 2, 3, 0, 60, 0, 0)).toBeNaN();
    expect(wallMs(2026, 2, 3, 0, 59, 60, 0)).toBe(Date.UTC(2026, 1, 3, 1));
    expect(wallMs(2026, 2, 4, 0, 59, 1, 5)).toBe(Date.UTC(2026, 1, 4, 0, 59, 1, 5));
  });
});

describe('the line index', () => {
  it('finds the same line ends as a search for each', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(0x0a, 0x0b, 0x09, 0x0d, 0x8a, 0x41, 0x00, 0xff)),
        fc.nat(3),
        (values, offset) => {
          const bytes = new Uint8Array(new ArrayBuffer(values.length + offset), offset);
          bytes.set(values);
          const index: LineIndex = { ends: new Int32Array(1), count: 0 };
          indexLines(bytes, index);
          expect([...index.ends.subarray(0, index.count)]).toEqual(
            values.flatMap((value, i) => (value === 0x0a ? [i] : [])),
          );
        },
      ),
    );
  });
});

describe('plain numbers', () => {
  it('are the doubles the platform reads', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -(10 ** 15) + 1, max: 10 ** 15 - 1 }),
        fc.nat(14),
        fc.boolean(),
        (digits, decimals, comma) => {
          const size = String(Math.abs(digits)).padStart(decimals + 1, '0');
          fc.pre(size.length <= 15);
          const text = `${digits < 0 ? '-' : ''}${size.slice(0, size.length - decimals)}${decimals > 0 ? `.${size.slice(-decimals)}` : ''}`;
          const bytes = Buffer.from(comma ? text.replace('.', ',') : text);
          expect(plainNumber(bytes, 0, bytes.length, comma)).toBe(Number(text));
        },
      ),
    );
  });

  it.each(['', '-', '.', '1e5', '1.2.3', ' 1', '1 ', '1234567890123456', 'NaN', '0x10', '1,5'])(
    'leave %j to others',
    (text) => {
      expect(plainNumber(Buffer.from(text), 0, text.length)).toBeNaN();
    },
  );
});

describe('sample columns', () => {
  it('come out sorted by time, equal times in the order they came', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(50)), (times) => {
        const columns = new SampleColumns();
        times.forEach((time, i) => columns.push(time, i, -i, NaN));
        const expected = times.map((time, i) => [time, i] as const).sort((a, b) => a[0] - b[0] || a[1] - b[1]);
        const series = columns.toSeries([]);
        expect([...(series?.atMs ?? [])]).toEqual(expected.map(([time]) => time));
        expect([...(series?.raArcsec ?? [])]).toEqual(expected.map(([, i]) => i));
        expect(columns.inOrder).toBe(times.every((time, i) => i === 0 || time >= (times[i - 1] ?? 0)));
      }),
    );
  });

  it('fill piece after piece without losing a row', () => {
    const columns = new SampleColumns();
    for (let i = 0; i < 50_000; i++) columns.push(i, i / 2, i / 4, i / 8);
    const series = columns.toSeries([]);
    expect(series?.atMs.length).toBe(50_000);
    expect([...(series?.snr ?? [])]).toEqual(Array.from({ length: 50_000 }, (_, i) => i / 8));
  });
});

describe('the warning tally', () => {
  it('tells the first three of a kind and counts the others', () => {
    const tally = new WarningTally('a.log');
    for (let line = 1; line <= 100; line++) tally.add('broken-line', line, () => `Line ${line} is broken.`);
    const warnings = tally.list();
    expect(warnings.map((warning) => warning.source?.line)).toEqual([1, 2, 3, 4]);
    expect(warnings[3]).toMatchObject({ count: 97, message: '97 more like these (broken-line), lines 4 to 100.' });
  });

  it('tells kinds apart by detail, but not without limit', () => {
    const tally = new WarningTally('a.log');
    for (let line = 1; line <= 5000; line++) tally.add('unknown-field', line, () => 'unknown', `f${line}`);
    const warnings = tally.list();
    expect(warnings.length).toBeLessThan(200);
    expect(warnings.reduce((sum, warning) => sum + (warning.count ?? 1), 0)).toBe(5000);
  });
});
