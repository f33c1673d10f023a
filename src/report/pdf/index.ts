/** Paper: pages printed to PDF by an installed browser. */
import type { Browser } from 'puppeteer-core';
import { startBrowser } from './browser.js';
import { BrowserMissing } from './find-browser.js';
import { impressionOf, type PrintWork } from './impression.js';
import type { Paper } from './print.js';

export { withBrowser } from './browser.js';
export { BrowserMissing, findBrowser } from './find-browser.js';
export { impressionOf, LAST_LEVEL, type Impression, type PrintWork } from './impression.js';
export { pdfOf, printPdf, type Paper, type PrintOptions } from './print.js';

/** A page, and the name of its PDF. */
export interface PrintJob extends PrintWork {
  readonly name: string;
}

/** The PDFs made, and why others were not. */
export interface Printed {
  readonly pdfs: readonly { readonly name: string; readonly pdf: Uint8Array }[];
  readonly failures: readonly string[];
}

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** A browser that is starting while its input is still being created. */
export interface Press {
  /**
   * Prints several pages. If no browser is found nothing is printed, and a sentence says what to install; a page that
   * fails is reported and does not prevent the others.
   */
  print(jobs: readonly PrintJob[], options: PrintingOptions): Promise<Printed>;
  /** Closes the browser. Must be called in any case. */
  close(): Promise<void>;
}

export interface PrintingOptions {
  readonly paper: Paper;
  readonly onPage?: () => void;
}

/** Browsers' own advice on their sandbox is for starting them by hand. */
function failureOf(reason: string): string {
  return /no usable sandbox/i.test(reason)
    ? 'the browser found no sandbox to run in. Install one (on Debian: apt install chromium-sandbox), or, in a ' +
        'container that allows none, set NIGHTLEDGER_NO_SANDBOX=1 (docs/security.md says what that gives up)'
    : `the browser failed (${reason})`;
}

/** Starts a browser for later pages. A missing browser is reported when they are printed. */
export function openPress(): Press {
  const started = tried(startBrowser);
  return {
    async print(jobs, options) {
      try {
        if (!started.ok) throw started.error;
        return await printedBy(await started.value.connect(), jobs, options);
      } catch (error) {
        const reason = error instanceof BrowserMissing ? error.message : failureOf(reasonOf(error));
        return { pdfs: [], failures: [`No PDF was made: ${reason}. HTML and JSON are complete.`] };
      }
    },
    async close() {
      if (started.ok) await started.value.close();
    },
  };
}

/** Prints several pages with a browser started for them. */
export async function printPdfs(jobs: readonly PrintJob[], options: PrintingOptions): Promise<Printed> {
  const press = openPress();
  try {
    return await press.print(jobs, options);
  } finally {
    await press.close();
  }
}

async function printedBy(
  browser: Browser,
  jobs: readonly PrintJob[],
  { paper, onPage }: PrintingOptions,
): Promise<Printed> {
  const pdfs: { name: string; pdf: Uint8Array }[] = [];
  const failures: string[] = [];
  for (const { name, ...work } of jobs) {
    try {
      pdfs.push({ name, pdf: await impressionOf(work, browser, paper) });
    } catch (error) {
      failures.push(`${name} could not be printed: ${reasonOf(error)}`);
    }
    onPage?.();
  }
  return { pdfs, failures };
}

type Tried<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: unknown };

function tried<T>(make: () => T): Tried<T> {
  try {
    return { ok: true, value: make() };
  } catch (error) {
    return { ok: false, error };
  }
}
