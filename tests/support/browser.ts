import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { inject } from 'vitest';
import { ADDRESS_BAR } from '../../src/report/pdf/flags.js';
import { findBrowser } from '../../src/report/pdf/index.js';

/** A browser of the machine with a folder of pages to open by `file:`. */
export interface Desk {
  readonly browser: Browser;
  /** Writes a page and opens it at a width; what it asks for and complains of is kept. */
  open(name: string, html: string, width: number, options?: { readonly script?: boolean }): Promise<OpenPage>;
  close(): Promise<void>;
}

export interface OpenPage {
  readonly page: Page;
  /** Everything asked for but the page itself and what it carries inside. */
  readonly requests: readonly string[];
  /** Errors of script and of the page's policy. */
  readonly errors: readonly string[];
}

/** One for all test files of a process; it hangs on a pipe, and ends with the process. */
let running: Promise<Browser> | undefined;

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the browsers of this run have their folders. */
    browserFolders: string;
  }
}

function start(): Promise<Browser> {
  const root = process.getuid?.() === 0;
  return puppeteer.launch({
    executablePath: findBrowser(),
    headless: true,
    pipe: true,
    handleSIGINT: false,
    handleSIGTERM: false,
    handleSIGHUP: false,
    protocolTimeout: 180_000,
    // The set-up removes it after the run.
    userDataDir: join(inject('browserFolders'), String(process.pid)),
    args: [
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-extensions',
      `--disable-features=${ADDRESS_BAR}`,
      // One process for all pages: each takes a tenth of a second to start.
      '--process-per-site',
      '--no-first-run',
      ...(root ? ['--no-sandbox'] : []),
    ],
  });
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
      const page = await browser.newPage();
      const requests: string[] = [];
      const errors: string[] = [];
      const own = pathToFileURL(file).href;
      page.on('request', (request) => {
        if (request.url() !== own && !request.url().startsWith('data:')) requests.push(request.url());
      });
      page.on('pageerror', (error) => errors.push(String(error)));
      page.on('console', (message) => {
        if (message.type() === 'error' || message.type() === 'warn') errors.push(message.text());
      });
      await page.setJavaScriptEnabled(script);
      await page.setViewport({ width, height: 900 });
      await page.goto(own, { waitUntil: 'load' });
      return { page, requests, errors };
    },
    async close() {
      const [, ...left] = await browser.pages();
      for (const page of left) await page.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}
