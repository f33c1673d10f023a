import type { Browser } from 'puppeteer-core';
import { findBrowser, thisMachine, type Machine } from './find-browser.js';
import { start, type Started } from './launch.js';

/**
 * Whether the browser must run without its sandbox: as root it refuses to start with one; others have to request it.
 */
function withoutSandbox({ env, platform }: Machine): boolean {
  return env.NIGHTLEDGER_NO_SANDBOX === '1' || (platform === 'linux' && process.getuid?.() === 0);
}

/**
 * Starts an installed browser.
 *
 * @throws BrowserMissing when there is none
 */
export function startBrowser(machine: Machine = thisMachine()): Started {
  return start(findBrowser(machine), withoutSandbox(machine));
}

/**
 * Starts a browser, passes it to `use`, and closes it in any case. One instance serves any number of PDFs.
 *
 * @throws BrowserMissing when there is none
 */
export async function withBrowser<T>(
  use: (browser: Browser) => Promise<T>,
  machine: Machine = thisMachine(),
): Promise<T> {
  const started = startBrowser(machine);
  try {
    return await use(await started.connect());
  } finally {
    await started.close();
  }
}
