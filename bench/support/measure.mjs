// Whole processes, measured from outside.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
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

/**
 * Processor time of all children that have ended (proc(5), stat: cutime and cstime), ms in steps of 10; NaN where the
 * system does not say.
 */
export function childProcessorMs() {
  try {
    const fields = readFileSync('/proc/self/stat', 'latin1').split(') ')[1].split(' ');
    return (Number(fields[13]) + Number(fields[14])) * 10;
  } catch {
    return NaN;
  }
}

/** One process: how long it took by the clock and of the processor, and what it said. */
export function timed(command, args, { cwd, env = {} } = {}) {
  const processor = childProcessorMs();
  const begin = performance.now();
  const { status, stdout, stderr, error } = spawnSync(command, args, {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, ...env },
    maxBuffer: 1e8,
  });
  const ms = performance.now() - begin;
  if (status !== 0) stop(`${command} ${args.join(' ')} failed:\n${error ?? stderr}`);
  return { ms, processorMs: childProcessorMs() - processor, stdout, stderr };
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
 * Runs contestants in turn, several times, after one round that warms the caches; a single time, as they come.
 *
 * @returns of each, the median time by the clock and the mean of the processor, which is known in coarse steps only, ms
 */
export function inTurn(runs, contestants) {
  if (runs > 1) for (const run of contestants) run();
  const rounds = Array.from({ length: runs }, () => contestants.map((run) => run()));
  return contestants.map((_, index) => ({
    ms: median(rounds.map((round) => round[index].ms)),
    processorMs: rounds.reduce((sum, round) => sum + round[index].processorMs, 0) / runs,
  }));
}

/**
 * How one contestant did against another, by the clock and by the processor: on a machine that does other things too,
 * the clock's ratio is noise, and the processor's is not.
 *
 * @param setAside taken off both, such as what starting Node costs
 */
export function ratioOf(mine, other, setAside = { ms: 0, processorMs: 0 }) {
  const of = (key) => (mine[key] - setAside[key]) / (other[key] - setAside[key]);
  return { clock: of('ms'), processor: of('processorMs') };
}

export function median(numbers) {
  const sorted = numbers.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
