import type { Browser } from 'puppeteer-core';
import { compactPdf } from './compact.js';
import { writeAtomically } from '../../files/write-atomically.js';
import { withBrowser } from './browser.js';

export type Paper = 'a4' | 'letter';

export interface PrintOptions {
  readonly paper: Paper;
  /** A browser that is already running; one is started and closed again when absent. */
  readonly browser?: Browser;
}

/**
 * The bytes of a page's PDF: tagged, with an outline, set by the page's own print styles. Script is off and nothing is
 * fetched while it is made.
 *
 * @param html a whole page that needs nothing from outside
 */
export async function pdfOf(html: string, browser: Browser, paper: Paper): Promise<Uint8Array> {
  const page = await browser.newPage();
  try {
    await page.setJavaScriptEnabled(false);
    await page.setOfflineMode(true);
    await page.setRequestInterception(true);
    page.on('request', (request) => {
      const own = request.url().startsWith('data:') || request.url() === 'about:blank';
      void (own ? request.continue() : request.abort('blockedbyclient'));
    });
    await page.setContent(html, { waitUntil: 'load' });
    return await page.pdf({
      format: paper,
      printBackground: true,
      tagged: true,
      outline: true,
      preferCSSPageSize: false,
    });
  } finally {
    await page.close();
  }
}

/**
 * Prints a page to a PDF file.
 *
 * @throws BrowserMissing when no browser is found
 */
export async function printPdf(html: string, outFile: string, options: PrintOptions): Promise<void> {
  const print = async (browser: Browser): Promise<void> =>
    writeAtomically(outFile, await compactPdf(await pdfOf(html, browser, options.paper)));
  await (options.browser === undefined ? withBrowser(print) : print(options.browser));
}
