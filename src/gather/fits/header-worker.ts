/** A thread that reads the beginnings of files ahead of another, which makes frames of them. */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { workerData } from 'node:worker_threads';
import { fillRing, type ReadBeginning } from './ahead-ring.js';
import { OPEN_FLAGS } from './file-source.js';
import type { AheadTask } from './read-ahead.js';

const { paths, ring } = workerData as AheadTask;
const files = paths.split('\0');

/** A failure here recurs where it can be reported. */
const read: ReadBeginning = (file, into, at, length) => {
  let descriptor: number | undefined;
  try {
    descriptor = openSync(files[file] as string, OPEN_FLAGS);
    const stat = fstatSync(descriptor);
    return stat.isFile() ? [readSync(descriptor, into, at, length, 0), stat.size] : null;
  } catch {
    return null;
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
};

fillRing(ring, files.length, read);
