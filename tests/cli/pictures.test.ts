/** `--no-pictures`, as a user sees it: on the page, on the card, on paper. */
import { createHash } from 'node:crypto';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument, PDFName, PDFRawStream } from '@cantoo/pdf-lib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { nightledgerIn } from '../support/command-line.js';
import { inFull } from '../support/runs.js';
import { copyStarNight } from '../support/star-night.js';
import { tempFolder } from '../support/temp-folder.js';

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(async () => {
  copyStarNight(join(folder, 'session'));
  for (const [out, more] of [
    ['with', []],
    // One print shows that a PDF has them; what leaves them out of the page leaves them out of all.
    ['without', inFull(['--no-pictures'], ['--no-pictures', '--no-pdf'])],
  ] as const) {
    const run = await nightledgerIn(
      folder,
      'report',
      'session',
      '--out',
      out,
      '--edition',
      'full',
      '--also',
      'card',
      ...more,
    );
    expect(run.status, run.stderr).toBe(0);
  }
}, 240_000);

const pageOf = (out: string): string => readFileSync(join(folder, out, 'report.html'), 'utf8');
const photographs = (page: string): string[] => page.match(/<img[^>]*src="data:image\/(?:jpeg|webp|avif)[^"]*"/g) ?? [];

/** JPEGs inside a PDF. */
async function countImages(path: string): Promise<number> {
  const { context } = await PDFDocument.load(readFileSync(path));
  return context
    .enumerateIndirectObjects()
    .filter(([, one]) => one instanceof PDFRawStream && one.dict.get(PDFName.of('Filter')) === PDFName.of('DCTDecode'))
    .length;
}

describe('pictures of stars and fields', () => {
  it('stand on the page, and --no-pictures leaves every one out', () => {
    // Fields of both trains; of each lost frame a strip and that of a kept one beside it.
    expect(photographs(pageOf('with')).length).toBeGreaterThanOrEqual(4);
    expect(photographs(pageOf('without'))).toEqual([]);
    expect(pageOf('without')).not.toMatch(/data:image\/(?:jpeg|webp|avif)/);
    // The rest of the section stands.
    expect(pageOf('without')).toContain('Measured in the pixels of');
  });

  it('are within their sizes: strips of 8 kB, at most 12; fields of 80 kB, at most 6', () => {
    const sizes = photographs(pageOf('with')).map((tag) => ((tag.split('base64,')[1] ?? '').length * 3) / 4);
    const fields = sizes.filter((bytes) => bytes > 8_000);
    expect(Math.max(...sizes)).toBeLessThanOrEqual(80_000);
    expect(fields.length).toBeLessThanOrEqual(6);
    expect(sizes.length - fields.length).toBeLessThanOrEqual(2 * 12);
  });

  it('are not on the card either, which has the same size without', () => {
    const [withOne, without] = ['with', 'without'].map((out) => readFileSync(join(folder, out, 'card.png')));
    for (const card of [withOne, without]) {
      expect(card?.readUInt32BE(16)).toBe(1200);
      expect(card?.readUInt32BE(20)).toBe(630);
    }
    const hash = (bytes: Buffer | undefined) =>
      createHash('sha256')
        .update(bytes ?? '')
        .digest('hex');
    expect(hash(withOne)).not.toBe(hash(without));
  });

  it('are in the PDF, and not without', async () => {
    expect(await countImages(join(folder, 'with', 'report.pdf'))).toBeGreaterThanOrEqual(2);
    if (inFull(true, false)) expect(await countImages(join(folder, 'without', 'report.pdf'))).toBe(0);
  });
});
