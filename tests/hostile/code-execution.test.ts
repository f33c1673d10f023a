import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { importEdges } from '../architecture/imports.js';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { ROOT, started, type ChildRun } from './support/child.js';

interface LockFile {
  readonly packages: Readonly<
    Record<
      string,
      { readonly dependencies?: Record<string, string>; readonly optionalDependencies?: Record<string, string> }
    >
  >;
}

const LOCK = JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')) as LockFile;

/** Packages whose code runs in the program, bundled or installed with it: those the sources import, and what they need. */
const INSTALLED = (() => {
  const found = new Set<string>();
  const waiting = importEdges().flatMap((e) => (e.isPackage && !e.to.startsWith('node:') ? [packageOf(e.to)] : []));
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (found.has(name)) continue;
    found.add(name);
    const { dependencies, optionalDependencies } = LOCK.packages[`node_modules/${name}`] ?? {};
    waiting.push(...Object.keys({ ...dependencies, ...optionalDependencies }));
  }
  return [...found].sort();
})();

function packageOf(specifier: string): string {
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
}

/** Names under which programs and packages look for configuration, with code in them or without. */
const STEMS = ['puppeteer', 'chromium', 'browserslist', 'handlebars', 'chart', 'canvas', 'yaml', 'npm', 'nightledger'];
const ENDINGS = ['', '.js', '.cjs', '.mjs', '.ts', '.cts', '.json', '.yaml', '.yml', '.toml'];
const CONFIGURATION = [
  ...STEMS.flatMap((stem) =>
    ENDINGS.flatMap((ending) => [`.${stem}rc${ending}`, `.config/${stem}rc${ending}`, `${stem}.config${ending}`]),
  ),
  ...[
    '.env',
    '.env.local',
    '.env.production',
    '.env.development',
    '.npmrc',
    '.node-version',
    '.pnp.cjs',
    '.pnp.loader.mjs',
  ],
  ...['fonts.conf', '.fonts.conf', 'tsconfig.json', 'package.json', 'index.js', 'index.cjs', 'index.node'],
];

/** A text that does harm in whatever language it is read: it leaves a mark, or names a program that does. */
function trap(name: string, mark: string, browser: string): string {
  if (name === '.env' || name.startsWith('.env.'))
    return `NIGHTLEDGER_BROWSER=${browser}\nPUPPETEER_EXECUTABLE_PATH=${browser}\nNODE_OPTIONS=--require=${browser}.cjs\n`;
  if (name.endsWith('.npmrc')) return `script-shell=${browser}\nnode-options=--require=${browser}.cjs\n`;
  if (name.endsWith('package.json'))
    return JSON.stringify({
      name: 'trap',
      main: 'index.js',
      type: 'commonjs',
      puppeteer: { executablePath: browser, browser: 'chrome' },
      browserslist: ['extends trap'],
    });
  if (/\.(json|ya?ml)$/.test(name)) return JSON.stringify({ executablePath: browser, extends: './index.js' });
  const write = `('node:fs').writeFileSync(${JSON.stringify(mark)}, ${JSON.stringify(name)})`;
  return name.endsWith('.mjs') || name.endsWith('.ts')
    ? `import fs from 'node:fs';\nfs.writeFileSync(${JSON.stringify(mark)}, ${JSON.stringify(name)});\nexport default {};\n`
    : `require${write};\nmodule.exports = {};\n`;
}

/** Lays traps under every name into a folder. */
function plant(folder: string, mark: string, browser: string): void {
  const packages = [
    ...INSTALLED,
    'canvas',
    'bufferutil',
    'utf-8-validate',
    'puppeteer',
    'cosmiconfig',
    'supports-color',
  ];
  writeFiles(
    folder,
    new Map([
      ...CONFIGURATION.map((name) => [name, trap(name, mark, browser)] as const),
      ...packages.flatMap((name) => [
        [`node_modules/${name}/package.json`, trap('package.json', mark, browser)] as const,
        [`node_modules/${name}/index.js`, trap(`${name}/index.js`, mark, browser)] as const,
      ]),
    ]),
  );
}

const SHORT = { begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T19:50:00.000Z' };

/** A session with traps in it and above it, and the shared edition of its night. */
const above = mkdtempSync(join(tmpdir(), 'nightledger-traps-'));
const mark = join(above, 'it-ran');
const out = join(above, 'out');
let run: ChildRun;
beforeAll(() => {
  const session = join(above, 'nights/2026-10-14');
  const browser = join(above, 'browser');
  writeFiles(session, writeSession(shortNight(SHORT)).files);
  writeFiles(
    above,
    new Map([
      ['browser', `#!/bin/sh\ntouch ${mark}\n`],
      ['browser.cjs', trap('browser.cjs', mark, browser)],
    ]),
  );
  for (const folder of [above, dirname(session), session]) plant(folder, mark, browser);
  mkdirSync(join(session, 'bin'));
  for (const command of ['chromium', 'google-chrome', 'chrome']) symlinkSync(browser, join(session, 'bin', command));
  run = started(['report', '.', '--out', out, '--share'], {
    cwd: session,
    env: { PATH: `bin:.:${process.env.PATH ?? ''}`, NODE_ENV: 'production' },
    seconds: 60,
  });
});
afterAll(() => rmSync(above, { recursive: true, force: true }));

describe('a session folder runs nothing', () => {
  it('has no package installed that looks for configuration in the working folder', () => {
    const loaders = ['puppeteer', 'cosmiconfig', 'lilconfig', 'rc', 'dotenv', 'browserslist', 'find-up', 'find-config'];
    expect(INSTALLED.filter((name) => loaders.includes(name))).toEqual([]);
    expect(INSTALLED).toContain('puppeteer-core');
  });

  it('runs and reads no file of the names that programs look for, in the session or above it', () => {
    expect(run).toMatchObject({ status: 0, withinBounds: true });
    expect(existsSync(mark) ? readFileSync(mark, 'utf8') : 'nothing').toBe('nothing');
    // Where a browser is installed it was started too, and did not stumble.
    if (!run.stderr.includes('no browser was found')) expect(readdirSync(out)).toContain('report.pdf');
  });
});

const DAY_MS = 86_400_000;
const HOUR = /\d{1,2}:\d{2}(?::\d{2})? UTC/;

/** With `--wait` a report is made when the Sun is up: its hour, of some nights, is the place of the site. */
describe('the hour at which a shared edition was made', () => {
  it('stands neither in it nor in the times of its files', () => {
    const files = readdirSync(out).filter((name) => statSync(join(out, name)).isFile());
    for (const name of files) expect(statSync(join(out, name)).mtimeMs % DAY_MS, name).toBe(0);
    for (const name of ['report.html', 'night.json', 'summary.md', 'frames.csv'])
      expect(readFileSync(join(out, name), 'utf8'), name).not.toMatch(HOUR);
    expect(files).toContain('report.pdf');
    const pdf = readFileSync(join(out, 'report.pdf'), 'latin1');
    const dates = [...pdf.matchAll(/(?:CreationDate|ModDate) \(D:\d{8}(\d{6})(.*?)\)/g)];
    expect(dates.map(([, hour, zone]) => `${hour}${zone}`)).toEqual(["000000+00'00'", "000000+00'00'"]);
    expect(pdf).not.toMatch(/Mozilla|Skia|Linux|Windows NT|Macintosh/);
  });
});
