import { PDFDocument } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import { pageCountOf } from '../../../src/report/pdf/page-count.js';

/** A PDF of a general-purpose library, whose page tree lies in plain objects or in packed ones. */
async function pdfOf(pages: number, useObjectStreams = false): Promise<Uint8Array> {
  const document = await PDFDocument.create();
  document.setTitle('/Pages 1 0 R, /Count 9');
  for (let i = 0; i < pages; i++) document.addPage();
  return document.save({ useObjectStreams });
}

const changed = (pdf: Uint8Array, from: string | RegExp, to: string): Uint8Array =>
  Buffer.from(Buffer.from(pdf).toString('latin1').replace(from, to), 'latin1');

describe('the number of pages by the page tree', () => {
  it('is that of a file of plain objects', async () => {
    for (const pages of [1, 2, 13]) expect(pageCountOf(await pdfOf(pages))).toBe(pages);
  });

  it('is unknown where it does not stand in one plain table', async () => {
    const plain = await pdfOf(3);
    expect(pageCountOf(await pdfOf(3, true))).toBeNull();
    expect(pageCountOf(changed(plain, '/Size', '/Prev 15\n/Size'))).toBeNull();
    expect(pageCountOf(changed(plain, /startxref\s+\d+/, 'startxref\n99999999'))).toBeNull();
    expect(pageCountOf(changed(plain, /startxref\s+\d+/, 'startxref\n7'))).toBeNull();
    expect(pageCountOf(changed(plain, '/Type /Pages', '/Type /Sagep'))).toBeNull();
    expect(pageCountOf(changed(plain, /\/Count 3/, '/Cnt 3'))).toBeNull();
    expect(pageCountOf(plain.subarray(0, plain.length - 40))).toBeNull();
    expect(pageCountOf(new Uint8Array())).toBeNull();
    expect(pageCountOf(new Uint8Array(5000).fill(37))).toBeNull();
  });
});
