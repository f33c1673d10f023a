/** The program as a process of its own: what calling it as a function cannot show. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import type { Ran } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { some } from '../support/runs.js';

/** Compiled before the tests: by `npm test`, and by the set-up of the tests where it is older than its sources. */
const PROGRAM = fileURLToPath(new URL('../../dist/cli.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'nightledger-process-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const DATES = some(['2026-10-14', '2026-10-15', '2026-10-16'], 2);
for (const date of DATES) {
  const night = shortNight({ begin: `${date}T19:30:00.000Z`, end: `${date}T19:50:00.000Z` });
  writeFiles(join(folder, `of-${date}`), writeSession(night).files);
}
/** The command that answers soonest what takes some work. */
const INIT = ['init', `of-${DATES[0]}`, '--print'] as const;

function start(...args: readonly string[]): ReturnType<typeof startIn> {
  return startIn({}, ...args);
}

function startIn(
  env: Readonly<Record<string, string>>,
  ...args: readonly string[]
): Promise<Omit<Ran, 'status'> & { readonly status: number | null }> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [PROGRAM, ...args], {
      cwd: folder,
      env: { ...process.env, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => (stdout += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (stderr += text));
    child.on('error', reject).on('close', (status) => resolve({ status, stdout, stderr }));
  });
}

describe('nightledger as a process', () => {
  it('ends in silence when nobody reads on', async () => {
    const child = spawn(process.execPath, [PROGRAM, ...INIT], { cwd: folder });
    child.stdout.destroy();
    let stderr = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => (stderr += text));
    const status = await new Promise((resolve) => child.on('close', resolve));
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  });

  it('serves several writers of one archive at once, one after the other', async () => {
    const shared = join(folder, 'shared');
    const runs = await Promise.all(
      DATES.map((date) => start('report', `of-${date}`, '--out', join(folder, date), '--no-pdf', '--archive', shared)),
    );
    expect(runs.map((run) => run.status)).toEqual(DATES.map(() => 0));
    DATES.forEach((date, i) => {
      expect(runs[i]?.stdout.trim().split('\n')).toEqual(
        ['report.html', 'night.json', 'frames.csv', 'frames'].map((file) => join(folder, date, file)),
      );
      expect(runs[i]?.stderr).toContain('.json of the archive: a new night');
    });
    expect(readdirSync(shared).filter((name) => name.endsWith('.json'))).toHaveLength(DATES.length);
  });

  it('answers the same with the compiled code of the run before, and with none that could be kept', async () => {
    const ask = (cache: string) => startIn({ XDG_CACHE_HOME: cache, LOCALAPPDATA: cache }, ...INIT);
    const cache = join(folder, 'cache');
    const first = await ask(cache);
    const engine = join(cache, 'nightledger', process.platform === 'win32' ? 'Cache' : '', 'code');
    const kept = () => readdirSync(engine, { recursive: true }).filter((file) => String(file).endsWith('init.code'));
    expect(kept()).toHaveLength(1);
    const file = join(engine, String(kept()[0]));
    const { ino, mtimeMs } = statSync(file);
    expect(await ask(cache)).toEqual(first);
    // All of it was good enough to be run, so that nothing was stored again.
    expect(statSync(file)).toMatchObject({ ino, mtimeMs });
    writeFileSync(join(folder, 'no-folder'), '');
    expect(await ask(join(folder, 'no-folder'))).toEqual(first);
    expect(first).toMatchObject({ status: 0, stderr: '' });
  });

  it('keeps no compiled code of a run that failed', async () => {
    const cache = join(folder, 'unused-cache');
    await startIn({ XDG_CACHE_HOME: cache, LOCALAPPDATA: cache }, 'divine', 'the', 'future');
    expect(existsSync(cache)).toBe(false);
  });

  it('ends with the exit code that the function returns, its message on stderr', async () => {
    const run = await start('divine', 'the', 'future');
    expect(run).toMatchObject({ status: 2, stdout: '' });
    expect(run.stderr).toContain("unknown command 'divine'");
  });
});
