import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readGuidingCsv, type GuidingRead } from '../../../src/gather/guiding-log/index.js';
import { withLog } from '../lines/support/temp-log.js';
import { runs } from '../../support/runs.js';

const read = (content: string | Uint8Array): Promise<GuidingRead> => withLog(content, readGuidingCsv, 'guiding.csv');

function rows(result: GuidingRead): (readonly [string, number, number, number])[] {
  const series = result.series;
  if (series === null) return [];
  return Array.from(
    series.atMs,
    (atMs, i) =>
      [
        new Date(atMs).toISOString(),
        series.raArcsec[i] ?? NaN,
        series.decArcsec[i] ?? NaN,
        series.snr[i] ?? NaN,
      ] as const,
  );
}

describe('the guiding log', () => {
  it('gives columns of time, errors and star signal', async () => {
    const result = await read(
      'at,ra_arcsec,dec_arcsec,snr\n2026-10-14T19:42:10.250Z,0.31,-0.42,23.5\n2026-10-14T21:42:12+02:00,-.5,+1,\n',
    );
    expect(rows(result)).toEqual([
      ['2026-10-14T19:42:10.250Z', 0.31, -0.42, 23.5],
      ['2026-10-14T19:42:12.000Z', -0.5, 1, NaN],
    ]);
    expect(result).toMatchObject({ lines: 3, understood: 3, warnings: [] });
    expect(result.series?.sources).toEqual([{ file: 'guiding.csv' }]);
  });

  it('finds the columns by name, in any order among others', async () => {
    const result = await read('note, dec_arcsec ,SNR,at,x,ra_arcsec\nok,-0.42,11,2026-10-14T19:42:10Z,,0.31\n');
    expect(rows(result)).toEqual([['2026-10-14T19:42:10.000Z', 0.31, -0.42, 11]]);
  });

  it('assumes the usual order without a header, and says so', async () => {
    const result = await read('2026-10-14T19:42:10Z,0.1,0.2\n2026-10-14T19:42:12Z,0.3,0.4\n');
    expect(rows(result).map((row) => row[1])).toEqual([0.1, 0.3]);
    expect(result.warnings.map((warning) => warning.code)).toEqual(['no-header']);
  });

  it('reads quoted rows, exponents and blanks as well as plain rows', async () => {
    const result = await read(
      '"at","ra_arcsec","dec_arcsec"\n"2026-10-14T19:42:10Z","1e-1"," 0.2"\n2026-10-14T19:42:11Z,0.3,0.4\n"2026-10-14T19:42:12Z",0.5,6e-1\n',
    );
    expect(rows(result).map((row) => row[1])).toEqual([0.1, 0.3, 0.5]);
    expect(rows(result).map((row) => row[2])).toEqual([0.2, 0.4, 0.6]);
  });

  it('gives the same samples quoted and plain', async () => {
    const row = fc.tuple(
      fc.integer({ min: 1_790_000_000, max: 1_800_000_000 }),
      fc.double({ min: -90, max: 90, noNaN: true }),
      fc.double({ min: -9, max: 9, noNaN: true }),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 30 }), async (samples) => {
        const cells = samples.map(([at, ra, dec]) => [
          new Date(at * 1000).toISOString(),
          ra.toFixed(4),
          dec.toFixed(3),
        ]);
        const plain = await read(`at,ra_arcsec,dec_arcsec\n${cells.map((cell) => cell.join(',')).join('\n')}\n`);
        const quoted = await read(
          `at,ra_arcsec,dec_arcsec\n${cells.map((cell) => cell.map((text) => `"${text}"`).join(',')).join('\n')}\n`,
        );
        expect(rows(quoted)).toEqual(rows(plain));
        expect(rows(plain).length).toBe(samples.length);
      }),
      runs(60),
    );
  });

  it('sorts rows that stand out of order, and says so', async () => {
    const result = await read('at,ra_arcsec,dec_arcsec\n2026-10-14T19:42:12Z,2,0\n2026-10-14T19:42:10Z,1,0\n');
    expect(rows(result).map((row) => row[1])).toEqual([1, 2]);
    expect(result.warnings.map((warning) => warning.code)).toEqual(['unsorted-samples']);
  });

  it('loses one row to a broken row, and says which', async () => {
    const result = await read(
      'at,ra_arcsec,dec_arcsec\n2026-10-14T19:42:10Z,1,\n2026-10-14T19:42:11Z,nan,0\nyesterday,1,2\n\n2026-10-14T19:42:12Z,3,4\n',
    );
    expect(rows(result).map((row) => row[1])).toEqual([3]);
    expect(result.warnings.map((warning) => [warning.code, warning.source?.line])).toEqual([
      ['unreadable-sample', 2],
      ['unreadable-sample', 3],
      ['unreadable-time', 4],
    ]);
  });

  it('loses one line to a quote that is never closed', async () => {
    const result = await read(
      'at,ra_arcsec,dec_arcsec\n2026-10-14T19:42:10Z,1,1\n"2026-10-14T19:42:11Z,2,2\n 2026-10-14T19:42:12Z,3,3\n',
    );
    expect(rows(result).map((row) => row[1])).toEqual([1, 3]);
    expect(result.warnings.map((warning) => warning.source?.line)).toEqual([3]);
  });

  it('is empty, with a warning, for a file that is something else', async () => {
    const result = await read(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00]));
    expect(result.series).toBeNull();
    expect(result.warnings.length).toBeGreaterThan(0);
  });

  it('never throws, whatever the text', async () => {
    const line = fc.oneof(
      fc.string(),
      fc.constant('2026-10-14T19:42:10Z,0.3,0.4'),
      fc.constant('"2026-10-14T19:42:10Z",0.3,"'),
      fc.constant('at,ra_arcsec,dec_arcsec'),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(line, { maxLength: 30 }), async (texts) => {
        const result = await read(texts.join('\n'));
        expect(result.understood).toBeLessThanOrEqual(result.lines);
      }),
      runs(150),
    );
  });
});
