/**
 * The program in a process of its own, with bounds on its time and memory: an attack that hangs or fills the memory
 * costs that process, not the test run.
 */
import { fork, spawnSync, type ChildProcess } from 'node:child_process';
import { existsSync } from 'node:fs';
import { Socket } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { OPTIMIZED_LATE } from '../../../scripts/engine.mjs';
import { inFull } from '../../support/runs.js';

export const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const CLI = join(ROOT, 'dist/cli.js');
const MAIN = join(ROOT, 'dist/main.js');
const MEASURE = fileURLToPath(new URL('./measure.mjs', import.meta.url));
const SERVING = fileURLToPath(new URL('./serving.mjs', import.meta.url));

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

function build(): void {
  // `npm test` compiles first; a test run by hand may have to.
  if (!existsSync(CLI)) spawnSync(process.execPath, [join(ROOT, 'scripts/build.mjs')], { stdio: 'inherit' });
}

/** Runs the compiled program, started as a shell starts it. */
export function started(args: readonly string[], { cwd, env, seconds = 20, megabytes = 600 }: ChildOptions): ChildRun {
  build();
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

/**
 * Has the compiled program answer a command line. In `npm run thorough` each is started for itself; in `npm test` one
 * process answers all of a worker, for a start takes longer than most attacks. One that does not answer in time is
 * ended, and the next question starts another.
 */
export async function nightledger(args: readonly string[], options: ChildOptions): Promise<ChildRun> {
  return inFull(true, false) ? started(args, options) : asked(args, options);
}

let serving: ChildProcess | undefined;

interface Answer {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
  readonly kilobytes: number;
}

function asked(args: readonly string[], { cwd, env, seconds = 20, megabytes = 600 }: ChildOptions): Promise<ChildRun> {
  const child = serving ?? serve();
  let stderr = '';
  const listen = (text: string): void => void (stderr += text);
  return new Promise<ChildRun>((resolve) => {
    const late = setTimeout(() => child.kill('SIGKILL'), seconds * 1000);
    const end = (run: ChildRun): void => {
      clearTimeout(late);
      child.off('message', answered).off('exit', gone);
      child.stderr?.off('data', listen);
      resolve(run);
    };
    const gone = (status: number | null): void => end({ status, stdout: '', stderr, withinBounds: false });
    const answered = (message: unknown): void => {
      const { kilobytes, ...answer } = message as Answer;
      end({ ...answer, stderr: answer.stderr + stderr, withinBounds: kilobytes < megabytes * 1024 });
    };
    child.once('message', answered).once('exit', gone);
    child.stderr?.on('data', listen);
    child.send({ args, cwd, env: { ...process.env, ...env } });
  });
}

/** It ends with this process, for it hangs on a channel to it. */
function serve(): ChildProcess {
  build();
  const child = fork(SERVING, [MAIN], {
    cwd: ROOT,
    execArgv: ['--expose-gc', OPTIMIZED_LATE],
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  });
  child.stderr?.setEncoding('utf8');
  child.once('exit', () => (serving = undefined));
  child.unref();
  child.channel?.unref();
  if (child.stderr instanceof Socket) child.stderr.unref();
  serving = child;
  return child;
}
