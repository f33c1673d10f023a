import type { Browser } from 'puppeteer-core';
import { findBrowser, thisMachine, type Machine } from './find-browser.js';
import { launch } from './launch.js';

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
  const executable = findBrowser(machine);
  const { browser, close } = await launch(executable, withoutSandbox(machine) ? [...FLAGS, '--no-sandbox'] : FLAGS);
  try {
    return await use(browser);
  } finally {
    await close();
  }
}
