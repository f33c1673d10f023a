import type { Browser } from 'puppeteer-core';
import { findBrowser, thisMachine, type Machine } from './find-browser.js';

/** What a browser that only prints can do without: the network above all. */
const FLAGS = [
  '--disable-gpu',
  '--disable-background-networking',
  '--no-first-run',
  '--no-default-browser-check',
  '--host-resolver-rules=MAP * ~NOTFOUND',
];

/** Whether the browser must do without its sandbox: as root it refuses to start with one; others have to ask. */
function withoutSandbox({ env, platform }: Machine): boolean {
  return env.NIGHTLEDGER_NO_SANDBOX === '1' || (platform === 'linux' && process.getuid?.() === 0);
}

/**
 * Starts a browser, hands it to `use`, and closes it whatever happens. One start serves any number of PDFs.
 *
 * @throws BrowserMissing when there is none
 */
export async function withBrowser<T>(
  use: (browser: Browser) => Promise<T>,
  machine: Machine = thisMachine(),
): Promise<T> {
  const executablePath = findBrowser(machine);
  // Loaded late: it costs a tenth of a second that a run without a PDF need not spend.
  const { default: puppeteer } = await import('puppeteer-core');
  const browser = await puppeteer.launch({
    executablePath,
    headless: true,
    // A browser on a pipe ends with the program, even when that is killed; one on a socket would go on without it.
    pipe: true,
    args: withoutSandbox(machine) ? [...FLAGS, '--no-sandbox'] : FLAGS,
  });
  try {
    return await use(browser);
  } finally {
    await browser.close();
  }
}
