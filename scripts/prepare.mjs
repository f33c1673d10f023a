// Sets up what `npm run demo` and `npm test` need on a machine with only Node: the packages, a browser for the PDF,
// and the compiled program. Does only what is missing, and says what it does.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const say = (line) => process.stderr.write(`prepare: ${line}\n`);

const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
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

// npm writes this file when it has installed what the lock file asks for.
const installed = join(root, 'node_modules/.package-lock.json');
const lock = join(root, 'package-lock.json');
if (!existsSync(installed) || statSync(installed).mtimeMs < statSync(lock).mtimeMs) {
  if (!run('npm', ['ci', '--no-audit', '--no-fund'])) {
    say('the packages could not be installed; see the messages above');
    process.exit(1);
  }
}

const BROWSERS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];
const APPLICATIONS = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];
const onPath = (name) => (process.env.PATH ?? '').split(delimiter).some((dir) => existsSync(join(dir, name)));
const hasBrowser = () =>
  Boolean(process.env.NIGHTLEDGER_BROWSER || process.env.PUPPETEER_EXECUTABLE_PATH) ||
  BROWSERS.some(onPath) ||
  APPLICATIONS.some((path) => existsSync(path));

if (!hasBrowser() && onPath('apt-get')) {
  const asRoot = process.getuid?.() === 0 ? [] : onPath('sudo') ? ['sudo'] : null;
  if (asRoot) {
    say("no browser for the PDF found; installing Debian's chromium");
    const apt = (...args) =>
      run([...asRoot, 'apt-get', ...args][0], [...asRoot, 'apt-get', ...args].slice(1), {
        env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
      });
    apt('update', '-qq') && apt('install', '-y', '-qq', '--no-install-recommends', 'chromium');
  }
}
if (!hasBrowser())
  say(
    'no browser found: HTML and JSON will be made, the PDF will not; install chromium (Debian: apt install chromium)',
  );

// The program is compiled anew when a source is newer than the last build.
const { newest } = await import('./newest.mjs');
const built = join(root, 'dist/cli.js');
if (!existsSync(built) || newest(join(root, 'src')) > statSync(built).mtimeMs) {
  if (!run(process.execPath, [join(root, 'scripts/build.mjs')])) process.exit(1);
}

const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
say(`nightledger ${version} is ready`);
