import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const isWindows = process.platform === 'win32';
const npm = (args: readonly string[], cwd: string) =>
  execFileSync('npm', [...args], { cwd, encoding: 'utf8', shell: isWindows, stdio: ['ignore', 'pipe', 'pipe'] });

/** The canvas and its prebuilt parts for this machine: a fence against a library that slips in. */
const MAX_CANVAS_PACKAGES = 4;

describe('the packed program, installed into an empty place', () => {
  const place = mkdtempSync(join(tmpdir(), 'nightledger-pack-'));
  let program: string;
  let installed: string;

  beforeAll(() => {
    // `set-up.mjs` has built dist already: packing must not build again while other tests read it.
    const [packed] = JSON.parse(npm(['pack', '--json', '--ignore-scripts', '--pack-destination', place], ROOT)) as [
      { filename: string; files: { path: string }[] },
    ];
    expect(packed.files.map((f) => f.path)).toContain('dist/cli.js');
    mkdirSync(join(place, 'prefix'));
    npm(
      [
        'install',
        '--global',
        '--prefix',
        join(place, 'prefix'),
        '--prefer-offline',
        '--no-audit',
        '--no-fund',
        join(place, packed.filename),
      ],
      place,
    );
    installed = join(place, isWindows ? 'prefix/node_modules' : 'prefix/lib/node_modules', 'nightledger');
    program = join(place, isWindows ? 'prefix/nightledger.cmd' : 'prefix/bin/nightledger');
  });

  afterAll(() => rmSync(place, { recursive: true, force: true }));

  const run = (args: readonly string[]) =>
    spawnSync(program, [...args], { cwd: place, encoding: 'utf8', shell: isWindows });

  test('says its version', () => {
    expect(run(['--version']).stdout.trim()).toBe(
      (JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string }).version,
    );
  });

  test('brings no library but the prebuilt canvas', () => {
    const scopes = readdirSync(join(installed, 'node_modules')).filter((name) => !name.startsWith('.'));
    expect(scopes).toEqual(['@napi-rs']);
    expect(readdirSync(join(installed, 'node_modules/@napi-rs')).length).toBeLessThanOrEqual(MAX_CANVAS_PACKAGES);
  });

  test('reports a night of headers alone with one command and no rig file', () => {
    const frames = join(ROOT, 'sample-sessions/headers-only/frames');
    const made = run(['report', frames, '--out', join(place, 'report')]);
    expect(made.stderr).not.toMatch(/Error|Cannot find/);
    expect(made.status).toBe(0);
    expect(existsSync(join(place, 'report/night.json'))).toBe(true);
    expect(readFileSync(join(place, 'report/report.html'), 'utf8')).toContain('<svg');
    // Where no browser is found the program says so; else its own libraries must suffice for the PDF.
    if (!made.stderr.includes('no browser was found')) expect(existsSync(join(place, 'report/report.pdf'))).toBe(true);
  });
});
