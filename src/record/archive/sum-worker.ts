/** A thread that sums up records, beside others that take files of the same list. */
import { parentPort, workerData } from 'node:worker_threads';
import { takeFiles, type SumTask, type SumsFound } from './sum-task.js';

const BATCH = 16;

let found: SumsFound = [];
for (const one of takeFiles(workerData as SumTask)) {
  found.push(one);
  if (found.length < BATCH) continue;
  parentPort?.postMessage(found);
  found = [];
}
parentPort?.postMessage(found);
