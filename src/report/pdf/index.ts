/** Paper: pages printed to PDF by a browser of the machine. */
import { BrowserMissing, withBrowser } from './browser.js';
import { printPdf, type Paper } from './print.js';

export { BrowserMissing, findBrowser, withBrowser } from './browser.js';
export { pdfOf, printPdf, type Paper, type PrintOptions } from './print.js';

/** PDFs that were made, and what has to be said where they were not. */
export interface Printed {
  readonly files: readonly string[];
  readonly notes: readonly string[];
}

/**
 * Prints several pages with one browser. Where no browser is found nothing is printed, and a note says what to
 * install; a page that fails is told and does not keep the others.
 */
export async function printPdfs(pages: readonly { readonly html: string; readonly file: string }[], options: { readonly paper: Paper; readonly onPage?: () => void }): Promise<Printed> {
  const files: string[] = [];
  const notes: string[] = [];
  try {
    await withBrowser(async (browser) => {
      for (const { html, file } of pages) {
        try {
          await printPdf(html, file, { paper: options.paper, browser });
          files.push(file);
        } catch (error) {
          notes.push(`${file} could not be printed: ${error instanceof Error ? error.message : String(error)}`);
        }
        options.onPage?.();
      }
    });
  } catch (error) {
    notes.push(error instanceof BrowserMissing ? `No PDF was made: ${error.message}. HTML and JSON are complete.` : `No PDF was made: the browser failed (${error instanceof Error ? error.message : String(error)}). HTML and JSON are complete.`);
  }
  return { files, notes };
}
