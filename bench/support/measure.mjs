// Whole processes, measured from outside.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const CLI = fileURLToPath(new URL('../../dist/cli.js', import.meta.url));
const MEASURED = fileURLToPath(new URL('measured-cli.mjs', import.meta.url));

/** Ends the benchmark with a sentence. */
export function stop(message) {
  console.error(message);
  process.exit(1);
}

/** The program must have been built. */
export function demandProgram() {
  if (!existsSync(CLI)) stop(`${CLI} is missing: run \`npm run build\` first.`);
}

/** A folder that is gone when the benchmark ends. */
export function workFolder(name) {
  const folder = mkdtempSync(join(tmpdir(), `nightledger-bench-${name}-`));
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** One process: how long it took and what it said. */
export function timed(command, args, { cwd, env = {} } = {}) {
  const begin = performance.now();
  const { status, stdout, stderr, error } = spawnSync(command, args, {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, ...env },
    maxBuffer: 1e8,
  });
  const ms = performance.now() - begin;
  if (status !== 0) stop(`${command} ${args.join(' ')} failed:\n${error ?? stderr}`);
  return { ms, stdout, stderr };
}

/** Node that does nothing: what starting it costs. */
export const nodeAlone = () => timed(process.execPath, ['-e', '0']);

/** The program as it is installed. */
export const program = (...args) => timed(process.execPath, [CLI, ...args]);

/** The most memory that the program took, MB. */
export function peakMegabytes(...args) {
  const { stderr } = timed(process.execPath, [MEASURED, ...args]);
  return Number(/peak-kb (\d+)/.exec(stderr)?.[1]) / 1000;
}

/**
 * Runs contestants in turn, several times, after one round that warms the caches.
 *
 * @returns the median time of each, ms
 */
export function inTurn(runs, contestants) {
  for (const run of contestants) run();
  const rounds = Array.from({ length: runs }, () => contestants.map((run) => run().ms));
  return contestants.map((_, index) => median(rounds.map((round) => round[index])));
}

export function median(numbers) {
  const sorted = numbers.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
