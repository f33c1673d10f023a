/**
 * Worker threads. The program of each is a built module next to the one that starts it (the build makes it an entry
 * file, `scripts/build.mjs`); if sources run without a build, as in tests, the calling thread does all of the work,
 * with the same results.
 */
import { existsSync } from 'node:fs';

/** More would wait for the disk and cost memory: each has its own engine. */
const MOST_THREADS = 4;

/**
 * How many threads of a program this machine has cores for, the calling one counted among them.
 *
 * @param program the thread's program, a built module
 * @returns 0 if it has not been built
 */
export function threadsOf(program: string | URL): number {
  if (!existsSync(program)) return 0;
  // Taken only now: most runs start no thread, and every module costs start-up time.
  const { availableParallelism } = process.getBuiltinModule('node:os');
  return Math.min(availableParallelism(), MOST_THREADS);
}
