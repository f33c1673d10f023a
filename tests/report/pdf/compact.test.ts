import { ParseSpeeds, PDFDocument, PDFString } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import { compactPdf } from '../../../src/report/pdf/compact.js';

const WORDS = 'a cell of a table that goes on, and what it says to who cannot see it; '.repeat(16);

/** A PDF whose weight lies in many small objects, as a tagged table's does. */
async function manyObjects(count: number): Promise<Uint8Array> {
  const document = await PDFDocument.create();
  document.setTitle('many objects');
  for (let i = 0; i < 3; i++) document.addPage();
  for (let i = 0; i < count; i++)
    document.context.register(document.context.obj({ Type: 'StructElem', S: 'TD', K: i, Alt: PDFString.of(WORDS) }));
  return document.save({ useObjectStreams: false, objectsPerTick: Infinity });
}

describe('packing a PDF', () => {
  it('makes a large one much smaller and loses no page and no title', async () => {
    const large = await manyObjects(1700);
    const packed = await compactPdf(large);
    expect(large.length).toBeGreaterThan(1_950_000);
    expect(packed.length).toBeLessThan(large.length / 2);
    const again = await PDFDocument.load(packed, { updateMetadata: false, parseSpeed: ParseSpeeds.Fastest });
    expect(again.getPageCount()).toBe(3);
    expect(again.getTitle()).toBe('many objects');
  });

  it('leaves a small one alone', async () => {
    const small = await manyObjects(10);
    expect(await compactPdf(small)).toBe(small);
  });

  it('leaves what it cannot read alone', async () => {
    const garbage = new Uint8Array(2_000_000).fill(37);
    expect(await compactPdf(garbage)).toBe(garbage);
  });
});
