/**
 * A disk that is full: a small file system of its own in a mount namespace where the system allows it, else a program
 * that is made to believe so. The title of the tests says which.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { OPTIMIZED_LATE } from '../../scripts/engine.mjs';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { ROOT } from './support/child.js';

cleanUp();

interface Ran {
  readonly status: number | null;
  readonly stderr: string;
}
interface Step {
  readonly first: Ran | null;
  readonly was: Readonly<Record<string, string>>;
  readonly full: Ran;
  readonly left: Readonly<Record<string, string>>;
  readonly again: Ran;
  readonly end: readonly string[];
}
type Results = Readonly<Record<'report' | 'archive' | 'progress' | 'sort', Step>> & {
  readonly cache: Pick<Step, 'full' | 'left'>;
};

const SCRIPT = fileURLToPath(new URL('./support/on-small-disk.mjs', import.meta.url));

function resultsOn(how: 'mount' | 'inject'): Results | null {
  const [disk, elsewhere] = [join(tempFolder(), 'disk'), join(tempFolder(), 'out')];
  mkdirSync(disk);
  const command = [
    process.execPath,
    OPTIMIZED_LATE,
    SCRIPT,
    how,
    disk,
    join(ROOT, 'dist/main.js'),
    join(ROOT, 'sample-sessions'),
    elsewhere,
  ];
  // In a namespace of its own the small disk is gone with the process, whatever happens.
  const whole = how === 'inject' ? command : ['unshare', process.getuid?.() === 0 ? '-m' : '-rm', ...command];
  const [program = '', ...args] = whole;
  const run = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 64 * 2 ** 20, timeout: 230_000 });
  if (how === 'mount' && (run.error !== undefined || run.status === 77 || run.stdout === '')) return null;
  return JSON.parse(run.stdout) as Results;
}

const mounted = process.platform === 'linux' ? resultsOn('mount') : null;
const cases: (readonly [string, Results])[] = [
  ...(mounted ? [['a small disk, filled to the last block', mounted] as const] : []),
  ...(mounted || process.platform === 'win32'
    ? []
    : [['writing that fails as on a full disk', resultsOn('inject')] as const]),
].flatMap(([name, results]) => (results ? [[name, results] as const] : []));

describe.each(cases)('%s', (_, results) => {
  it.each(['report', 'archive', 'progress', 'sort'] as const)(
    'ends %s with the file’s name and advice, leaves what was there, no lock and nothing half-written; the next ' +
      'run works',
    (id) => {
      const { first, was, full, left, again, end } = results[id];
      if (first) expect(first.status, first.stderr).toBe(0);
      expect(full.status, full.stderr).toBe(1);
      expect(full.stderr).toMatch(/the disk is full, or your quota is used up: .+ could not be written\. Make room/);
      expect(full.stderr).not.toMatch(/ENOSPC|\n\s+at /);
      for (const [file, hash] of Object.entries(was)) expect(left[file], file).toBe(hash);
      const files = Object.entries(left).filter(([, hash]) => hash !== 'folder');
      expect(files.map(([name]) => name).filter((name) => /lock|\.part$|\.nightledger-/.test(name))).toEqual([]);
      if (id !== 'sort') expect(Object.keys(left).length).toBeLessThanOrEqual(Math.max(2, Object.keys(was).length));
      expect(again.status, again.stderr).toBe(0);
      expect(end.length).toBeGreaterThan(0);
    },
  );

  it('costs a report no more than its memory of stars', () => {
    expect(results.cache.full.status, results.cache.full.stderr).toBe(0);
    expect(results.cache.full.stderr).toContain('could not be remembered');
    const files = Object.entries(results.cache.left).filter(([, hash]) => hash !== 'folder');
    expect(files).toEqual([]);
  });
});

it.runIf(cases.length === 0)('cannot be tried on this system', () => {
  expect(process.platform).toBe('win32');
});
