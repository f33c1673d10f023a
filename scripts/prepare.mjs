// Sets up what `npm run demo` and `npm test` need on a machine with only Node: the packages, a browser for the PDF,
// and the compiled program. Does only what is missing, and says what it does.
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { newest } from './newest.mjs';

export const root = fileURLToPath(new URL('..', import.meta.url));
const say = (line) => process.stderr.write(`prepare: ${line}\n`);

const BROWSERS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];
const APPLICATIONS = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];
/** Debian packages with programs that only tests call, to be judged by somebody else's reading of the standard. */
const JUDGES = { fitsverify: 'fitsverify', fpack: 'libcfitsio-bin', funpack: 'libcfitsio-bin' };

/**
 * Makes the machine ready.
 *
 * @param forTests also the programs that tests are judged by, where Debian's package manager can bring them; the
 *   program is then compiled without the type check, which the tests run by themselves
 * @param withProgram whether the program is compiled as well
 */
export function prepare({ forTests = false, withProgram = true } = {}) {
  demandNode();
  installPackages();
  installTools(forTests);
  if (!hasBrowser()) {
    say(
      'no browser found: HTML and JSON will be made, the PDF will not; install chromium (Debian: apt install chromium)',
    );
  }
  if (withProgram) compile({ checked: !forTests });
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  say(`nightledger ${version} is ready`);
}

function demandNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  say(`Node ${process.versions.node} is too old; nightledger needs Node 20.19 or newer`);
  process.exit(1);
}

function run(command, args, options = {}) {
  say(`${command} ${args.join(' ')}`);
  const result = spawnSync(command, args, {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
    ...options,
  });
  return result.status === 0;
}

function installPackages() {
  if (packagesAreInstalled() || run('npm', ['ci', '--no-audit', '--no-fund'])) return;
  say('the packages could not be installed; see the messages above');
  process.exit(1);
}

/** Whether every package of the lock file is there in its version; those for other machines need not be. */
function packagesAreInstalled() {
  const packages = (file) => JSON.parse(readFileSync(join(root, file), 'utf8')).packages;
  // npm writes this file when it has installed what the lock file asks for.
  if (!existsSync(join(root, 'node_modules/.package-lock.json'))) return false;
  const installed = packages('node_modules/.package-lock.json');
  return Object.entries(packages('package-lock.json')).every(
    ([path, { version, optional, link }]) => path === '' || optional || link || installed[path]?.version === version,
  );
}

const onPath = (name) => (process.env.PATH ?? '').split(delimiter).some((dir) => existsSync(join(dir, name)));

function hasBrowser() {
  return (
    Boolean(process.env.NIGHTLEDGER_BROWSER || process.env.PUPPETEER_EXECUTABLE_PATH) ||
    BROWSERS.some(onPath) ||
    APPLICATIONS.some((path) => existsSync(path))
  );
}

/** Debian packages for what is missing, where apt-get may be used; elsewhere a line says what does without. */
function installTools(forTests) {
  const judges = forTests ? Object.keys(JUDGES).filter((program) => !onPath(program)) : [];
  const wanted = [...new Set([...(hasBrowser() ? [] : ['chromium']), ...judges.map((program) => JUDGES[program])])];
  if (wanted.length === 0) return;
  if (onPath('apt-get') && !aptInstalls(wanted))
    say(`to have them, run as root: apt-get update && apt-get install -y --no-install-recommends ${wanted.join(' ')}`);
  const missing = judges.filter((program) => !onPath(program));
  if (missing.length > 0) say(`${missing.join(', ')} not found: the tests that they judge will be SKIPPED`);
}

/** Whether Debian's packages are there in the end. Nobody is asked for a password. */
function aptInstalls(wanted) {
  const rights = process.getuid?.() === 0 ? [] : onPath('sudo') ? ['sudo', '-n'] : null;
  if (rights === null) {
    say(`missing: ${wanted.join(', ')}; only root may install them, and sudo is not there`);
    return false;
  }
  say(`missing: ${wanted.join(', ')}; installing Debian's`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const apt = (...args) => {
    const [command, ...rest] = [...rights, 'apt-get', ...args];
    return run(command, rest, { env });
  };
  return apt('update', '-qq') && apt('install', '-y', '-qq', '--no-install-recommends', ...wanted);
}

/** What the bundle is made of. */
const PARTS = ['src', 'templates', 'schema', 'scripts/bundle'];

const BUILD = join(root, 'scripts/build.mjs');

/** Whether no source is newer than the last build. */
function isCompiled() {
  const built = join(root, 'dist/cli.js');
  return existsSync(built) && Math.max(...PARTS.map((part) => newest(join(root, part)))) <= statSync(built).mtimeMs;
}

/** The program is compiled anew when a source is newer than the last build. */
export function compile({ checked }) {
  if (isCompiled()) return;
  const flags = checked ? [] : ['--no-check'];
  if (!run(process.execPath, [BUILD, ...flags], { shell: false })) process.exit(1);
}

/** The same without the type check, while something else is done. */
export async function compileBeside() {
  if (isCompiled()) return;
  say(`${process.execPath} ${BUILD} --no-check`);
  const build = spawn(process.execPath, [BUILD, '--no-check'], { cwd: root, stdio: ['ignore', 2, 2] });
  const [status] = await once(build, 'close');
  if (status !== 0) throw new Error('the program could not be compiled; see the messages above');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) prepare({ forTests: process.argv.includes('--for-tests') });
