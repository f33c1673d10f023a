import { accessSync, constants } from 'node:fs';
import { join, posix, win32 } from 'node:path';

/** No browser was found for printing. The message says what was searched for and what to install. */
export class BrowserMissing extends Error {
  override readonly name = 'BrowserMissing';
}

/** What the search for a browser examines; a test passes its own. */
export interface Machine {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: NodeJS.Platform;
  readonly isExecutable: (path: string) => boolean;
}

/** Variables that name a browser, in order of precedence. */
const VARIABLES = ['NIGHTLEDGER_BROWSER', 'PUPPETEER_EXECUTABLE_PATH'] as const;

const COMMANDS = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
  'microsoft-edge',
  'microsoft-edge-stable',
  'msedge',
  'brave-browser',
];
const MAC_APPS = ['Google Chrome', 'Chromium', 'Microsoft Edge', 'Brave Browser'];
const WINDOWS_PROGRAMS = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Chromium\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
];
const LINUX_FOLDERS = ['/usr/bin', '/usr/local/bin', '/snap/bin', '/opt/google/chrome', '/var/lib/flatpak/exports/bin'];
const FLATPAKS = ['org.chromium.Chromium', 'com.google.Chrome'];

function usualPlaces({ platform, env }: Machine): string[] {
  const known = (names: readonly string[]): string[] => names.flatMap((name) => env[name] ?? []);
  switch (platform) {
    case 'darwin':
      return ['/Applications', ...known(['HOME']).map((home) => `${home}/Applications`)].flatMap((root) =>
        MAC_APPS.map((app) => `${root}/${app}.app/Contents/MacOS/${app}`),
      );
    case 'win32':
      return known(['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA']).flatMap((root) =>
        WINDOWS_PROGRAMS.map((path) => `${root}\\${path}`),
      );
    default:
      return LINUX_FOLDERS.flatMap((folder) => [...COMMANDS, ...FLATPAKS].map((name) => `${folder}/${name}`));
  }
}

/** Whether a path names the same file in every working folder. */
function isWholePath(path: string, { platform }: Machine): boolean {
  return platform === 'win32' ? win32.isAbsolute(path) && !/^[\\/](?![\\/])/.test(path) : posix.isAbsolute(path);
}

/** Commands on the PATH. Relative folders are ignored: nobody expects a browser there. */
function onPath(machine: Machine): string[] {
  const { env, platform } = machine;
  const windows = platform === 'win32';
  const folders = (env.PATH ?? env.Path ?? '')
    .split(windows ? ';' : ':')
    .filter((folder) => isWholePath(folder, machine));
  return COMMANDS.flatMap((name) => folders.map((folder) => join(folder, windows ? `${name}.exe` : name)));
}

/** The machine that the program runs on. */
export function thisMachine(): Machine {
  return {
    env: process.env,
    platform: process.platform,
    isExecutable(path) {
      try {
        accessSync(path, constants.X_OK);
        return true;
      } catch {
        return false;
      }
    },
  };
}

/**
 * Finds a browser of the Chromium family: what the environment names, then the PATH, then the usual locations.
 *
 * @returns path of the program
 * @throws BrowserMissing when the environment names a missing one, or none is found
 */
export function findBrowser(machine: Machine = thisMachine()): string {
  for (const variable of VARIABLES) {
    const path = machine.env[variable];
    if (path === undefined || path === '') continue;
    if (!isWholePath(path, machine))
      throw new BrowserMissing(
        `${variable} is "${path}", a relative path, which would be another program in ` +
          'every folder: give the full path, such as /usr/bin/chromium',
      );
    if (machine.isExecutable(path)) return path;
    throw new BrowserMissing(
      `${variable} names "${path}", but there is no program of that name: set it to a browser of the ` +
        'Chromium family, or unset it',
    );
  }
  const found = [...onPath(machine), ...usualPlaces(machine)].find(machine.isExecutable);
  if (found !== undefined) return found;
  const how =
    machine.platform === 'linux' ? 'on Debian or Ubuntu: apt install chromium' : 'Chromium, Chrome or Edge will do';
  throw new BrowserMissing(
    `no browser was found to print the PDF with. Install one (${how}), or set ${VARIABLES[0]} to the path of one`,
  );
}
