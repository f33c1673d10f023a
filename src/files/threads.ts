/**
 * Threads beside the calling one. The program of each is a built module beside the one that starts it (the build makes
 * it a start file, `scripts/build.mjs`); where sources run without a build, as tests do, the calling thread does all of
 * the work, with the same results.
 */
import { existsSync } from 'node:fs';

/** More wait for the disk and cost memory: each is an engine of its own. */
const MOST_THREADS = 4;

/**
 * How many threads of a program this machine has cores for, the calling one counted among them.
 *
 * @param program the thread's program, a built module
 * @returns 0 where it has not been built
 */
export function threadsOf(program: string | URL): number {
  if (!existsSync(program)) return 0;
  // Taken only now: most runs start no thread, and every module costs start-up time.
  const { availableParallelism } = process.getBuiltinModule('node:os');
  return Math.min(availableParallelism(), MOST_THREADS);
}
