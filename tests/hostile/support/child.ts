/**
 * The program in a process of its own, with bounds on its time and memory: an attack that hangs or fills the memory
 * costs that process, not the test run.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const CLI = join(ROOT, 'dist/cli.js');
const MEASURE = fileURLToPath(new URL('./measure.mjs', import.meta.url));

/** What a run may take at most. Ample for a busy machine: the attacks took minutes and gigabytes. */
export interface Bounds {
  readonly seconds?: number;
  readonly megabytes?: number;
}

export interface ChildRun {
  /** Exit code; `null` when the time was up or a signal ended it. */
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
  readonly withinBounds: boolean;
}

export interface ChildOptions extends Bounds {
  readonly cwd: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** Runs the compiled program. */
export function nightledger(
  args: readonly string[],
  { cwd, env, seconds = 20, megabytes = 600 }: ChildOptions,
): ChildRun {
  // `npm test` compiles first; a test run by hand may have to.
  if (!existsSync(CLI)) spawnSync(process.execPath, [join(ROOT, 'scripts/build.mjs')], { stdio: 'inherit' });
  const run = spawnSync(process.execPath, ['--import', MEASURE, CLI, ...args], {
    cwd,
    env: { ...process.env, ...env },
    encoding: 'utf8',
    timeout: seconds * 1000,
    killSignal: 'SIGKILL',
    maxBuffer: 64 * 2 ** 20,
    stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
  });
  const kilobytes = Number(run.output[3] ?? '');
  return {
    status: run.status,
    stdout: run.stdout,
    stderr: run.stderr,
    withinBounds: run.signal === null && kilobytes > 0 && kilobytes < megabytes * 1024,
  };
}
