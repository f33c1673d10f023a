import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { findBrowser } from '../../src/report/pdf/find-browser.js';
import { MANIFEST, manifestText, readManifest } from '../../src/report/edition/manifest.js';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import { inFull, some } from '../support/runs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger, ROOT } from './support/child.js';

cleanUp();

/** Ends what a failed test may have left behind. */
const started: number[] = [];
afterEach(() => {
  for (const pid of started.splice(0)) spawnSync('kill', ['-9', String(pid)]);
});

/** A quarter of an hour or so by headers alone. */
const fewFrames = (end: string): SessionFiles =>
  writeSession(shortNight({ begin: '2026-10-14T19:30:00.000Z', end }), { rig: false, logs: false }).files;

function hasBrowser(): boolean {
  try {
    return findBrowser() !== '';
  } catch {
    return false;
  }
}

/** Adds a PDF to a report that was made without one, as a file of its set. */
function addPdf(folder: string): void {
  const manifest = readManifest(folder);
  if (manifest === null) throw new Error('the report has no manifest');
  const pdf = '%PDF-1.7\n%%EOF\n';
  const digest = createHash('sha256').update(pdf).digest('hex');
  writeFileSync(join(folder, 'report.pdf'), pdf);
  const files = new Map([...manifest.files, ['report.pdf', digest] as const]);
  writeFileSync(join(folder, MANIFEST), manifestText({ ...manifest, files }));
}

/**
 * A report with its PDF, the session it is of, and another. What stands in the old PDF matters to nothing here: only
 * the thorough tests print it, where there is a browser.
 */
const [whole, session, other] = ['set', 'few', 'other'].map((name) =>
  mkdtempSync(join(tmpdir(), `nightledger-${name}-`)),
) as [string, string, string];
beforeAll(async () => {
  writeFiles(session, fewFrames('2026-10-14T19:45:00.000Z'));
  writeFiles(other, fewFrames('2026-10-14T19:50:00.000Z'));
  const report = ['report', session, '--out', whole, ...inFull([], ['--no-pdf'])];
  const made = await nightledger(report, { cwd: tmpdir(), seconds: 100 });
  expect(made.status, made.stderr).toBe(0);
  if (!existsSync(join(whole, 'report.pdf'))) addPdf(whole);
});
afterAll(() => {
  for (const folder of [whole, session, other]) rmSync(folder, { recursive: true, force: true });
});

const WITHOUT_PDF = ['.nightledger.json', 'frames', 'frames.csv', 'night.json', 'report.html'];

describe.skipIf(process.platform === 'win32' || !hasBrowser())('a program that is ended while it prints', () => {
  it.each(
    some(
      [
        ['SIGTERM', 143],
        ['SIGINT', 130],
      ] as const,
      1,
    ),
  )('ends with a code of its own on %s, leaves the old set whole and no browser', async (signal, code) => {
    const [out, temp] = [tempFolder(), tempFolder()];
    mkdirSync(join(temp, 'tmp'));
    cpSync(whole, out, { recursive: true });
    const contents = (): Buffer[] => ['report.html', 'report.pdf'].map((name) => readFileSync(join(out, name)));
    const before = contents();
    const child = spawn(process.execPath, [join(ROOT, 'dist/cli.js'), 'report', other, '--out', out], {
      stdio: ['ignore', 'ignore', 'pipe'],
      env: { ...process.env, TMPDIR: join(temp, 'tmp') },
    });
    started.push(child.pid ?? 0);
    let said = '';
    child.stderr.on('data', (text) => (said += String(text)));
    // Listened for from the start: a child that ends by itself must not be waited for.
    const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
    // The browser works in a folder named by the program's number, in the system's own where temporary paths are long.
    const folders = (): string[] =>
      [join(temp, 'tmp'), '/tmp'].flatMap((base) =>
        readdirSync(base)
          .filter((name) => name.startsWith(`nightledger-${child.pid}-`))
          .map((name) => join(base, name)),
      );
    while (folders().length === 0 && child.exitCode === null) await new Promise((resolve) => setTimeout(resolve, 10));
    const browserFolder = folders()[0] ?? 'none';
    const isRunning = (): boolean =>
      spawnSync('ps', ['-eo', 'args'], { encoding: 'utf8' }).stdout.includes(browserFolder);
    // It writes there as soon as it is up.
    const isUp = (): boolean => existsSync(browserFolder) && readdirSync(browserFolder).length > 0;
    while (!isUp() && child.exitCode === null) await new Promise((resolve) => setTimeout(resolve, 10));
    child.kill(signal);
    expect(await ended, said).toBe(code);
    expect(contents().map((now, i) => now.equals(before[i] ?? Buffer.alloc(0)))).toEqual([true, true]);
    expect(readdirSync(out).sort()).toEqual([...WITHOUT_PDF, 'report.pdf'].sort());
    // The browser's helpers notice within a moment that it is gone, on a busy machine within many.
    for (let i = 0; i < 600 && isRunning(); i++) await new Promise((resolve) => setTimeout(resolve, 100));
    expect(isRunning()).toBe(false);
    expect(existsSync(browserFolder)).toBe(false);
  });
});

describe('a PDF that cannot be made', () => {
  it('is reported even when quiet, and an old one does not stay next to the new page', async () => {
    const [out, cwd] = [tempFolder(), tempFolder()];
    cpSync(whole, out, { recursive: true });
    const report = ['report', session, '--out', out, '-q'];
    const broken = join(cwd, 'browser');
    const runWith = async (complaint: string) => {
      writeFileSync(broken, `#!/bin/sh\necho "${complaint}" >&2\nexit 3\n`, { mode: 0o755 });
      const run = await nightledger(report, { cwd, seconds: 100, env: { NIGHTLEDGER_BROWSER: broken } });
      expect(run).toMatchObject({ status: 0, stdout: '' });
      expect(readdirSync(out).sort()).toEqual(WITHOUT_PDF);
      return run.stderr;
    };
    expect(await runWith('no display')).toContain('No PDF was made: the browser failed (it ended at once: no display)');
    const unboxed = await runWith('[1:1:ERROR:host.cc] No usable sandbox! You can try using --no-sandbox');
    expect(unboxed).toMatch(/No PDF was made: the browser found no sandbox to run in.*NIGHTLEDGER_NO_SANDBOX=1/);
    expect(unboxed).not.toContain('--no-sandbox');
  });
});
