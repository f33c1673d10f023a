/** What `npm run demo` and `npm test` set up, on machines that have nothing: the package manager is a stand-in. */
import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const SCRIPT = fileURLToPath(new URL('../../scripts/prepare.mjs', import.meta.url));

interface Machine {
  readonly user: 'root' | 'somebody';
  /** Programs of the system; there is no other. */
  readonly programs: Readonly<Record<string, string>>;
}

/** Writes what it is called with, and lays a browser down when asked to install one. */
const APT = 'echo "apt-get $*" >> "$CALLS"; case "$1" in install) : > "$BIN/chromium";; esac';
const APT_REFUSES = 'echo "apt-get $*" >> "$CALLS"; exit 100';
const SUDO = 'echo "sudo $1" >> "$CALLS"; shift; "$@"';
const SUDO_REFUSES = 'echo "sudo: a password is required" >&2; exit 1';

function prepared({ user, programs }: Machine, ...args: readonly string[]) {
  const bin = tempFolder();
  for (const [name, script] of Object.entries(programs)) {
    writeFileSync(join(bin, name), `#!/bin/sh\n${script}\n`);
    chmodSync(join(bin, name), 0o755);
  }
  const calls = join(bin, 'calls.txt');
  const who = join(bin, 'who.mjs');
  writeFileSync(who, `process.getuid = () => ${user === 'root' ? 0 : 1000};`);
  const { status, stderr } = spawnSync(process.execPath, ['--import', pathToFileURL(who).href, SCRIPT, ...args], {
    encoding: 'utf8',
    env: { PATH: bin, BIN: bin, CALLS: calls, HOME: bin },
  });
  return { status, said: stderr, calls: existsSync(calls) ? readFileSync(calls, 'utf8').trim().split('\n') : [] };
}

const INSTALLS = ['apt-get update -qq', 'apt-get install -y -qq --no-install-recommends chromium'];
const NO_BROWSER = /no browser found: HTML and JSON will be made, the PDF will not/;

// Elsewhere a browser may stand in its usual place, and there is no such package manager.
describe.skipIf(process.platform !== 'linux')('a machine without a browser', () => {
  it('gets Debian’s as root', () => {
    const { status, said, calls } = prepared({ user: 'root', programs: { 'apt-get': APT } });
    expect(status).toBe(0);
    expect(calls).toEqual(INSTALLS);
    expect(said).not.toMatch(NO_BROWSER);
    expect(said).toMatch(/nightledger \S+ is ready/);
  });

  it('gets it through sudo, which asks for no password', () => {
    const { calls } = prepared({ user: 'somebody', programs: { 'apt-get': APT, sudo: SUDO } });
    expect(calls).toEqual(INSTALLS.flatMap((call) => ['sudo -n', call]));
  });

  it.each([
    ['nobody may install', { 'apt-get': APT }, /only root may install them, and sudo is not there/],
    ['sudo wants a password', { 'apt-get': APT, sudo: SUDO_REFUSES }, /a password is required/],
    ['the packages cannot be had', { 'apt-get': APT_REFUSES, sudo: SUDO }, /missing: chromium/],
  ])('says what to run if %s, and continues', (_, programs, expected) => {
    const { status, said } = prepared({ user: 'somebody', programs });
    expect(status).toBe(0);
    expect(said).toMatch(expected);
    expect(said).toContain('run as root: apt-get update && apt-get install -y --no-install-recommends chromium');
    expect(said).toMatch(NO_BROWSER);
    expect(said).toMatch(/nightledger \S+ is ready/);
  });

  it('says that there is none without such a package manager', () => {
    const { status, said, calls } = prepared({ user: 'root', programs: {} });
    expect([status, calls]).toEqual([0, []]);
    expect(said).toMatch(NO_BROWSER);
  });

  it('is left alone where it has one', () => {
    const { said, calls } = prepared({ user: 'root', programs: { 'apt-get': APT, chromium: 'exit 0' } });
    expect(calls).toEqual([]);
    expect(said).not.toMatch(/missing|no browser/);
  });

  it('gets the judges of the tests, too, and else says which tests are skipped', () => {
    const names = 'chromium fitsverify libcfitsio-bin';
    const { calls } = prepared({ user: 'root', programs: { 'apt-get': APT } }, '--for-tests');
    expect(calls[1]).toBe(`apt-get install -y -qq --no-install-recommends ${names}`);
    const { said } = prepared({ user: 'root', programs: {} }, '--for-tests');
    expect(said).toContain('fitsverify, fpack, funpack not found: the tests that they judge will be SKIPPED');
  });
});
