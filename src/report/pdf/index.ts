/** Paper: pages printed to PDF by a browser of the machine. */
import { withBrowser } from './browser.js';
import { BrowserMissing } from './find-browser.js';
import { impressionOf, type PrintWork } from './impression.js';
import type { Paper } from './print.js';

export { withBrowser } from './browser.js';
export { BrowserMissing, findBrowser } from './find-browser.js';
export { impressionOf, LAST_LEVEL, type Impression, type PrintWork } from './impression.js';
export { pdfOf, printPdf, type Paper, type PrintOptions } from './print.js';

/** A page, and the name of the PDF to make of it. */
export interface PrintJob extends PrintWork {
  readonly name: string;
}

/** PDFs that were made, and why others were not. */
export interface Printed {
  readonly pdfs: readonly { readonly name: string; readonly pdf: Uint8Array }[];
  readonly failures: readonly string[];
}

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/**
 * Prints several pages with one browser. Where no browser is found nothing is printed, and a sentence says what to
 * install; a page that fails is reported and does not keep the others.
 */
export async function printPdfs(
  jobs: readonly PrintJob[],
  options: { readonly paper: Paper; readonly onPage?: () => void },
): Promise<Printed> {
  const pdfs: { name: string; pdf: Uint8Array }[] = [];
  const failures: string[] = [];
  try {
    await withBrowser(async (browser) => {
      for (const { name, ...work } of jobs) {
        try {
          pdfs.push({ name, pdf: await impressionOf(work, browser, options.paper) });
        } catch (error) {
          failures.push(`${name} could not be printed: ${reasonOf(error)}`);
        }
        options.onPage?.();
      }
    });
  } catch (error) {
    const reason = error instanceof BrowserMissing ? error.message : `the browser failed (${reasonOf(error)})`;
    failures.push(`No PDF was made: ${reason}. HTML and JSON are complete.`);
  }
  return { pdfs, failures };
}
