/** Many records summarised on all cores, independently; on one core only stored summaries are used. */
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import { threadsOf } from '../../files/threads.js';
import type { Counting } from '../../model/index.js';
import { keptSums } from './kept-sums.js';
import type { SummedNight } from './sum-file.js';
import { sumTask, takeFiles, type SumsFound, type SumTask } from './sum-task.js';

/** The thread's program beside this module. */
const SUM_WORKER = join(import.meta.dirname, 'sum-worker.js');
/** Starting a thread takes as long as some dozens of records. */
const FEWEST = 100;

/** Reading the stored summaries of this many records takes as long as starting a thread. */
const READ_AT_ONCE = 2000;

export interface SumAheadOptions {
  readonly counting: Counting;
  readonly onProgress?: (done: number) => void;
  /** The thread's program, a built module. */
  readonly program?: string;
  /** Of fewer files only those are summed up ahead whose sums are kept beside them. */
  readonly fewest?: number;
}

/**
 * Summarises these files as far as possible.
 *
 * @returns by file; without files that hold no valid record, or whose thread failed: they must be read again
 */
export async function sumAhead(
  archive: string,
  files: readonly string[],
  { counting, onProgress, program = SUM_WORKER, fewest = FEWEST }: SumAheadOptions,
): Promise<ReadonlyMap<string, SummedNight>> {
  const threads = files.length < fewest ? 0 : threadsOf(program);
  const isShort = threads < 2 || files.length <= READ_AT_ONCE;
  const sums = new Map(isShort ? files.flatMap((file) => entry(file, keptSums(archive, file, counting))) : []);
  const left = files.filter((file) => !sums.has(file));
  if (threads < 2 || left.length < fewest) return sums;
  const task = sumTask(archive, left, counting);
  let done = sums.size;
  const take = (found: SumsFound): void => {
    for (const [place, night] of found) {
      const file = left[place];
      if (file !== undefined && night !== null) sums.set(file, night);
    }
    done += found.length;
    onProgress?.(done);
  };
  const others = Array.from({ length: threads - 1 }, () => endOf(task, program, take));
  for (const one of takeFiles(task)) {
    take([one]);
    // Messages from other threads are processed rather than queued.
    if (done % 64 === 0) await setImmediate();
  }
  await Promise.all(others);
  return sums;
}

function entry<V>(file: string, value: V | null): [string, V][] {
  return value === null ? [] : [[file, value]];
}

/** Starts a thread; resolved when it has ended, successfully or not: what it left out is read again. */
function endOf(task: SumTask, program: string, take: (found: SumsFound) => void): Promise<void> {
  return new Promise((resolve) => {
    const worker = new Worker(program, { workerData: task });
    worker.on('message', take);
    worker.on('error', () => resolve());
    worker.on('exit', () => resolve());
  });
}
