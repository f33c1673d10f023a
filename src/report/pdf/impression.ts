import type { Browser } from 'puppeteer-core';
import { compactPdf } from './compact.js';
import { pageCountOf } from './page-count.js';
import { withPrint, type Paper, type Print } from './print.js';

/** What a printing knows about the printings before it. */
export interface Impression {
  /** How tightly to set: initially 0, one more after each printing with too many pages. */
  readonly level: number;
  /** Page number of each linked anchor; `null` before they are known. */
  readonly pageOf: ReadonlyMap<string, number> | null;
}

/** A page to be printed, rendered for each printing. */
export interface PrintWork {
  readonly html: (impression: Impression) => string;
  /** Maximum number of pages, as far as the tightest setting allows. */
  readonly mostPages?: number;
  /** Whether it contains page numbers: it is then printed twice. */
  readonly numbersPages?: boolean;
}

/** The tightest setting. */
export const LAST_LEVEL = 5;

/** The bytes of a PDF within its page limit and with correct page numbers. */
export async function impressionOf(work: PrintWork, browser: Browser, paper: Paper): Promise<Uint8Array> {
  return compactPdf(await withPrint(browser, paper, (print) => printed(work, print)));
}

async function printed(work: PrintWork, print: Print): Promise<Uint8Array> {
  let impression: Impression = { level: 0, pageOf: null };
  const use = work.numbersPages === true ? 'numbers' : undefined;
  let bytes = await print(work.html(impression), use);
  const isTooLong = async (): Promise<boolean> =>
    work.mostPages !== undefined && (pageCountOf(bytes) ?? (await pagesOf(bytes)).count) > work.mostPages;
  while (impression.level < LAST_LEVEL && (await isTooLong())) {
    impression = { ...impression, level: impression.level + 1 };
    bytes = await print(work.html(impression), use);
  }
  if (work.numbersPages !== true) return bytes;
  return print(work.html({ ...impression, pageOf: (await pagesOf(bytes)).numbers }));
}

/** How many pages a PDF has, and on which of them its named destinations lie (ISO 32000-1, 12.3.2.3). */
export async function pagesOf(
  bytes: Uint8Array,
): Promise<{ readonly count: number; readonly numbers: ReadonlyMap<string, number> }> {
  const { ParseSpeeds, PDFArray, PDFDict, PDFDocument, PDFName } = await import('@cantoo/pdf-lib');
  const document = await PDFDocument.load(bytes, { updateMetadata: false, parseSpeed: ParseSpeeds.Fastest });
  const pages = document.getPages().map((page) => page.ref.toString());
  const destinations = document.catalog.lookupMaybe(PDFName.of('Dests'), PDFDict);
  const numbers = new Map<string, number>();
  for (const [name] of destinations?.entries() ?? []) {
    const place = destinations?.lookupMaybe(name, PDFArray);
    const page = place === undefined ? -1 : pages.indexOf(String(place.get(0)));
    if (page >= 0) numbers.set(name.decodeText(), page + 1);
  }
  return { count: pages.length, numbers };
}
