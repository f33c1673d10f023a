import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { importEdges } from '../architecture/imports.js';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { ROOT, started } from './support/child.js';

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

cleanUp();

const SHORT = { begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T19:50:00.000Z' };

describe('a session folder runs nothing', () => {
  it('has no package installed that looks for configuration in the working folder', () => {
    const loaders = ['puppeteer', 'cosmiconfig', 'lilconfig', 'rc', 'dotenv', 'browserslist', 'find-up', 'find-config'];
    expect(INSTALLED.filter((name) => loaders.includes(name))).toEqual([]);
    expect(INSTALLED).toContain('puppeteer-core');
  });

  it('runs and reads no file of the names that programs look for, in the session or above it', () => {
    const above = tempFolder();
    const session = join(above, 'nights/2026-10-14');
    const mark = join(above, 'it-ran');
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
    const out = join(tempFolder(), 'report');
    const run = started(['report', '.', '--out', out, '--share'], {
      cwd: session,
      env: { PATH: `bin:.:${process.env.PATH ?? ''}`, NODE_ENV: 'production' },
      seconds: 60,
    });
    expect(run).toMatchObject({ status: 0, withinBounds: true });
    expect(existsSync(mark) ? readFileSync(mark, 'utf8') : 'nothing').toBe('nothing');
    // Where a browser is installed it was started too, and did not stumble.
    if (!run.stderr.includes('no browser was found')) expect(readdirSync(out)).toContain('report.pdf');
  });
});
