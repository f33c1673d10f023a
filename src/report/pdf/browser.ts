import { accessSync, constants } from 'node:fs';
import { delimiter, isAbsolute, join } from 'node:path';
import type { Browser } from 'puppeteer';

/** No browser was found to print with. The message says what was looked for and what to install. */
export class BrowserMissing extends Error {
  override readonly name = 'BrowserMissing';
}

/** What the search for a browser looks at; a test hands in its own. */
export interface Machine {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: NodeJS.Platform;
  readonly isExecutable: (path: string) => boolean;
}

/** Variables that name a browser, in order of precedence. */
export const BROWSER_VARIABLES = ['NIGHTLEDGER_BROWSER', 'PUPPETEER_EXECUTABLE_PATH'] as const;

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome', 'microsoft-edge', 'microsoft-edge-stable', 'msedge', 'brave-browser'];

function usualPlaces({ platform, env }: Machine): string[] {
  if (platform === 'darwin') {
    const apps = ['Google Chrome', 'Chromium', 'Microsoft Edge', 'Brave Browser'];
    const roots = ['/Applications', ...(env['HOME'] === undefined ? [] : [`${env['HOME']}/Applications`])];
    return roots.flatMap((root) => apps.map((app) => `${root}/${app}.app/Contents/MacOS/${app}`));
  }
  if (platform === 'win32') {
    const roots = [env['PROGRAMFILES'], env['PROGRAMFILES(X86)'], env['LOCALAPPDATA']].filter((root) => root !== undefined);
    return roots.flatMap((root) => ['Google\\Chrome\\Application\\chrome.exe', 'Chromium\\Application\\chrome.exe', 'Microsoft\\Edge\\Application\\msedge.exe'].map((path) => `${root}\\${path}`));
  }
  return ['/usr/bin', '/usr/local/bin', '/snap/bin', '/opt/google/chrome', '/var/lib/flatpak/exports/bin'].flatMap((folder) => [...NAMES, 'org.chromium.Chromium', 'com.google.Chrome'].map((name) => `${folder}/${name}`));
}

function onPath({ env, platform }: Machine): string[] {
  const folders = (env['PATH'] ?? env['Path'] ?? '').split(platform === 'win32' ? ';' : delimiter).filter((folder) => isAbsolute(folder) || /^[A-Za-z]:/.test(folder));
  const suffix = platform === 'win32' ? '.exe' : '';
  return NAMES.flatMap((name) => folders.map((folder) => join(folder, `${name}${suffix}`)));
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** The machine that the program runs on. */
export function thisMachine(): Machine {
  return { env: process.env, platform: process.platform, isExecutable };
}

/**
 * Finds a browser of the Chromium family: what the environment names, then the PATH, then the usual places.
 *
 * @returns path of the program
 * @throws BrowserMissing when the environment names one that is not there, or none is found
 */
export function findBrowser(machine: Machine = thisMachine()): string {
  for (const variable of BROWSER_VARIABLES) {
    const path = machine.env[variable];
    if (path === undefined || path === '') continue;
    if (machine.isExecutable(path)) return path;
    throw new BrowserMissing(`${variable} names "${path}", and there is no program of that name: set it to a browser of the Chromium family, or unset it`);
  }
  const found = [...onPath(machine), ...usualPlaces(machine)].find(machine.isExecutable);
  if (found !== undefined) return found;
  const how = machine.platform === 'linux' ? 'on Debian or Ubuntu: apt install chromium' : 'Chromium, Chrome or Edge will do';
  throw new BrowserMissing(`no browser was found to print the PDF with. Install one (${how}), or set ${BROWSER_VARIABLES[0]} to the path of one`);
}

/** Whether the browser must do without its sandbox: it refuses to start with one as root; others have to ask. */
function withoutSandbox({ env, platform }: Machine): boolean {
  return env['NIGHTLEDGER_NO_SANDBOX'] === '1' || (platform === 'linux' && process.getuid?.() === 0);
}

/**
 * Starts a browser, hands it to `use`, and closes it whatever happens. One start serves any number of PDFs.
 *
 * @throws BrowserMissing when there is none
 */
export async function withBrowser<T>(use: (browser: Browser) => Promise<T>, machine: Machine = thisMachine()): Promise<T> {
  const executablePath = findBrowser(machine);
  // Loaded late: it costs a tenth of a second that a run without a PDF need not spend.
  const { default: puppeteer } = await import('puppeteer');
  const browser = await puppeteer.launch({
    executablePath, headless: true,
    args: ['--disable-gpu', '--disable-background-networking', '--no-first-run', '--no-default-browser-check', '--host-resolver-rules=MAP * ~NOTFOUND', ...(withoutSandbox(machine) ? ['--no-sandbox'] : [])],
  });
  try {
    return await use(browser);
  } finally {
    await browser.close();
  }
}
