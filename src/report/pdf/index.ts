/** Paper: pages printed to PDF by a browser of the machine. */
import { withBrowser } from './browser.js';
import { BrowserMissing } from './find-browser.js';
import { printPdf, type Paper } from './print.js';

export { withBrowser } from './browser.js';
export { BrowserMissing, findBrowser } from './find-browser.js';
export { pdfOf, printPdf, type Paper, type PrintOptions } from './print.js';

/** A page, and the PDF to make of it. */
export interface PrintJob {
  readonly html: string;
  readonly file: string;
}

/** PDFs that were made, and what has to be said where they were not. */
export interface Printed {
  readonly files: readonly string[];
  readonly notes: readonly string[];
}

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/**
 * Prints several pages with one browser. Where no browser is found nothing is printed, and a note says what to
 * install; a page that fails is told and does not keep the others.
 */
export async function printPdfs(
  jobs: readonly PrintJob[],
  options: { readonly paper: Paper; readonly onPage?: () => void },
): Promise<Printed> {
  const files: string[] = [];
  const notes: string[] = [];
  try {
    await withBrowser(async (browser) => {
      for (const { html, file } of jobs) {
        try {
          await printPdf(html, file, { paper: options.paper, browser });
          files.push(file);
        } catch (error) {
          notes.push(`${file} could not be printed: ${reasonOf(error)}`);
        }
        options.onPage?.();
      }
    });
  } catch (error) {
    const reason = error instanceof BrowserMissing ? error.message : `the browser failed (${reasonOf(error)})`;
    notes.push(`No PDF was made: ${reason}. HTML and JSON are complete.`);
  }
  return { files, notes };
}
