import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import puppeteer, {
  type Browser,
  type ConsoleMessage,
  type HTTPRequest,
  type Page,
  type WindowState,
} from 'puppeteer-core';
import { inject } from 'vitest';
import { OPTIMIZED_LATE } from '../../scripts/engine.mjs';
import { ADDRESS_BAR, SPARE_PROCESS } from '../../src/report/pdf/flags.js';
import { findBrowser } from '../../src/report/pdf/index.js';

/** A browser of the machine with a folder of pages to open by `file:`. */
export interface Desk {
  readonly browser: Browser;
  /** Writes a page and opens it at a width; what it asks for and complains of is kept. */
  open(name: string, html: string, width: number, options?: { readonly script?: boolean }): Promise<OpenPage>;
  /**
   * Has a page drawn while `use` runs. What is pointed at or clicked is looked for by drawing, and the browser tells a
   * page that its window has grown when it draws the next picture of it: other tabs wait for that in vain.
   */
  drawn<T>(page: Page, use: () => Promise<T>): Promise<T>;
  close(): Promise<void>;
}

export interface OpenPage {
  readonly page: Page;
  /** Everything asked for but the page itself and what it carries inside. */
  readonly requests: readonly string[];
  /** Errors of script and of the page's policy. */
  readonly errors: readonly string[];
  /** Leaves its tab to the next page that is opened. */
  leave(): Promise<void>;
}

/** Tabs that were left: to open one takes the browser longer than a page of middle size. */
const left: Page[] = [];

/** One for all test files of a process; it hangs on a pipe, and ends with the process. */
let running: Promise<Browser> | undefined;

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the browsers of this run have their folders. */
    browserFolders: string;
  }
}

/** Its window is minimized: to draw pages that nobody looks at takes a third of their time. */
async function start(): Promise<Browser> {
  const root = process.getuid?.() === 0;
  const browser = await puppeteer.launch({
    executablePath: findBrowser(),
    headless: true,
    pipe: true,
    handleSIGINT: false,
    handleSIGTERM: false,
    handleSIGHUP: false,
    protocolTimeout: 180_000,
    waitForInitialPage: false,
    // The set-up removes it after the run.
    userDataDir: join(inject('browserFolders'), String(process.pid)),
    args: [
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-extensions',
      '--no-startup-window',
      `--disable-features=${SPARE_PROCESS},${ADDRESS_BAR}`,
      // Files of the disk and addresses that hold their content are read by the browser itself.
      '--enable-features=NetworkServiceInProcess2',
      // What a page's script does for a moment is not worth being optimized, nor being collected by several threads.
      `--js-flags=--single-threaded-gc,${OPTIMIZED_LATE},--min-semi-space-size=16`,
      // One process for all pages: each takes a tenth of a second to start.
      '--process-per-site',
      '--no-first-run',
      ...(root ? ['--no-sandbox'] : []),
    ],
  });
  await browser.newPage({ type: 'window', windowBounds: { windowState: 'minimized' } });
  return browser;
}

async function setWindow(browser: Browser, page: Page, windowState: WindowState): Promise<void> {
  await browser.setWindowBounds(await page.windowId(), { windowState });
}

/** A browser, started for who asks first. The test machine's own fonts stay out of the way: a page brings its letters. */
export async function openDesk(): Promise<Desk> {
  const folder = await mkdtemp(join(tmpdir(), 'nightledger-page-'));
  if ((await running)?.connected !== true) running = start();
  const browser = await running;
  if (browser === undefined) throw new Error('no browser was started');
  return {
    browser,
    async open(name, html, width, { script = true } = {}) {
      const file = join(folder, `${name}.html`);
      await writeFile(file, html);
      // A tab of the one window.
      const page = left.pop() ?? (await browser.newPage({ background: true }));
      const requests: string[] = [];
      const errors: string[] = [];
      const own = pathToFileURL(file).href;
      const listeners = {
        request: (request: HTTPRequest) => {
          if (request.url() !== own && !request.url().startsWith('data:')) requests.push(request.url());
        },
        pageerror: (error: unknown) => void errors.push(String(error)),
        console: (message: ConsoleMessage) => {
          if (message.type() === 'error' || message.type() === 'warn') errors.push(message.text());
        },
      };
      page.on('request', listeners.request).on('pageerror', listeners.pageerror).on('console', listeners.console);
      const leave = async (): Promise<void> => {
        page.off('request', listeners.request).off('pageerror', listeners.pageerror).off('console', listeners.console);
        await page.emulateMediaFeatures([]);
        left.push(page);
      };
      await page.setJavaScriptEnabled(script);
      await page.setViewport({ width, height: 900 });
      await page.goto(own, { waitUntil: 'load' });
      return { page, requests, errors, leave };
    },
    async drawn(page, use) {
      await setWindow(browser, page, 'normal');
      await page.bringToFront();
      try {
        return await use();
      } finally {
        await setWindow(browser, page, 'minimized');
      }
    },
    async close() {
      const [, ...open] = await browser.pages();
      left.length = 0;
      for (const page of open) await page.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}
