/**
 * Reads many files ahead in a second thread: nearly half of a header's time is spent by the system in opening and
 * closing the file. On one core every file is read when requested.
 */
import { join } from 'node:path';
import { threadsOf } from '../../files/threads.js';
import { type Beginning, RingTaker, type SharedRing, sharedRing } from './ahead-ring.js';

/** The thread's program beside this module. */
const HEADER_WORKER = join(import.meta.dirname, 'header-worker.js');
/** With fewer files, starting a thread takes as long as it saves. Measured. */
const FEWEST = 4000;

/** The thread's input. */
export interface AheadTask {
  /** Separated by NUL, which no path holds: one text is handed over sooner than thousands. */
  readonly paths: string;
  readonly ring: SharedRing;
}

export interface AheadOptions {
  /** The thread's program, a built module. */
  readonly program?: string | URL;
  /** Of fewer files none is read ahead. */
  readonly fewest?: number;
}

/** Beginnings of files, to be requested in order. */
export interface ReadAhead {
  /** `undefined` where the caller is to read the file itself. */
  of(file: number): Beginning | undefined;
  /** How much of a file has been requested. */
  want(bytes: number): void;
  stop(): void;
}

const NOTHING: ReadAhead = { of: () => undefined, want: () => {}, stop: () => {} };

/** Begins to read files; must be stopped in any case. */
export function readAhead(
  paths: readonly string[],
  { program = HEADER_WORKER, fewest = FEWEST }: AheadOptions = {},
): ReadAhead {
  if (paths.length < fewest || threadsOf(program) < 2) return NOTHING;
  // Taken only now: most sessions are smaller, and every module costs start-up time.
  const { Worker } = process.getBuiltinModule('node:worker_threads');
  const ring = sharedRing(paths.length);
  const task: AheadTask = { paths: paths.join('\0'), ring };
  const worker = new Worker(program, { workerData: task });
  // Anything it does not read is read by the caller.
  worker.on('error', () => {});
  worker.unref();
  const taker = new RingTaker(ring);
  return { of: (file) => taker.take(file), want: (bytes) => taker.want(bytes), stop: () => taker.stop() };
}
