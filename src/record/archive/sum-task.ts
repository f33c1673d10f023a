/** A list of records that several threads process: each takes the next file. */
import type { Counting } from '../../model/index.js';
import { keptSums } from './kept-sums.js';
import { sumFile, type SummedNight } from './sum-file.js';

/** What threads share. */
export interface SumTask {
  readonly archive: string;
  readonly files: readonly string[];
  readonly counting: Counting;
  /** One number, in shared memory: how many files have been taken. */
  readonly taken: Int32Array;
}

/** Summaries by index of their file in the list; `null` if the file holds no valid record. */
export type SumsFound = (readonly [place: number, night: SummedNight | null])[];

/** A task of which nothing is taken yet. */
export function sumTask(archive: string, files: readonly string[], counting: Counting): SumTask {
  return { archive, files, counting, taken: new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT)) };
}

/** Takes and summarises files until none is left. */
export function* takeFiles({ archive, files, counting, taken }: SumTask): Generator<SumsFound[number]> {
  for (;;) {
    const place = Atomics.add(taken, 0, 1);
    const file = files[place];
    if (file === undefined) return;
    yield [place, keptSums(archive, file, counting) ?? sumFile(archive, file, counting)];
  }
}
