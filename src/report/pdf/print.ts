import type { Browser, Page } from 'puppeteer-core';
import { compactPdf } from './compact.js';
import { writeAtomically } from '../../files/write-atomically.js';
import { withBrowser } from './browser.js';

export type Paper = 'a4' | 'letter';

export interface PrintOptions {
  readonly paper: Paper;
  /** A running browser; if absent one is started and closed again. */
  readonly browser?: Browser;
}

/**
 * Creates the bytes of a page's PDF. The page is complete, and needs nothing from outside.
 *
 * @param use `numbers` for a preliminary printing that only determines page numbers: without tags and outline it takes
 * a quarter less time
 */
export type Print = (html: string, use?: 'numbers') => Promise<Uint8Array>;

/**
 * A hidden tab: a page loaded for printing is not also drawn, which took an eighth of a printing. In a headless browser
 * that is a tab in a minimised window, else one in the background. Script is off in it, and nothing is fetched.
 */
async function unseenTab(browser: Browser): Promise<Page> {
  const page = browser.targets().some((target) => target.type() === 'page')
    ? await browser.newPage({ background: true })
    : await browser.newPage({ type: 'window', windowBounds: { windowState: 'minimized' } });
  await page.setJavaScriptEnabled(false);
  await page.setOfflineMode(true);
  await page.setRequestInterception(true);
  page.on('request', (request) => {
    const own = request.url().startsWith('data:') || request.url() === 'about:blank';
    void (own ? request.continue() : request.abort('blockedbyclient'));
  });
  return page;
}

/** A tab that has printed waits for the next print: opening and closing one takes a fifth of a printing. */
const idle = new WeakMap<Browser, Page>();
const hasPrinted = new WeakSet<Page>();

async function takeTab(browser: Browser): Promise<Page> {
  const page = idle.get(browser);
  idle.delete(browser);
  return page === undefined || page.isClosed() ? unseenTab(browser) : page;
}

/**
 * Passes `use` a function that creates PDFs of a size, one after the other: tagged, with an outline, using the page's
 * own print styles. Script is off and nothing is fetched meanwhile.
 */
export async function withPrint<T>(browser: Browser, paper: Paper, use: (print: Print) => Promise<T>): Promise<T> {
  const page = await takeTab(browser);
  try {
    return await use(async (html, purpose) => {
      // A document written over a printed page is paginated differently than by itself.
      if (hasPrinted.has(page)) await page.goto('about:blank');
      hasPrinted.add(page);
      await page.setContent(html, { waitUntil: 'load' });
      const bytes = await page.pdf({
        format: paper,
        printBackground: true,
        tagged: purpose !== 'numbers',
        outline: purpose !== 'numbers',
        preferCSSPageSize: false,
      });
      return withoutMaker(bytes);
    });
  } finally {
    idle.set(browser, page);
  }
}

/** The bytes of one page's PDF ({@link withPrint}). */
export function pdfOf(html: string, browser: Browser, paper: Paper): Promise<Uint8Array> {
  return withPrint(browser, paper, (print) => print(html));
}

/** The browser's metadata about itself and the time; a bracket in a text is escaped (ISO 32000-1, 7.3.4.2). */
const MAKER = /\/(Creator|Producer|CreationDate|ModDate) \(((?:[^()\\]|\\.)*)\)/gs;

/**
 * The PDF without the time at which it was printed and the system it was printed on: after `--wait` that time is the
 * sunrise, and a shared report must reveal neither. Every text keeps its length, because the file contains byte
 * offsets.
 */
function withoutMaker(bytes: Uint8Array): Uint8Array {
  const pdf = Buffer.from(bytes);
  for (const { 0: entry, 1: key, 2: text, index } of pdf.toString('latin1').matchAll(MAKER)) {
    if (key === undefined || text === undefined) continue;
    const instead = key.endsWith('Date') ? text.replace(/^(D:\d{8})\d{6}.*$/, "$1000000+00'00'") : 'nightledger';
    const start = index + entry.length - 1 - text.length;
    pdf.write(instead.slice(0, text.length).padEnd(text.length), start, 'latin1');
  }
  // Plain bytes: PDF readers reject the platform's own kind.
  return new Uint8Array(pdf);
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
