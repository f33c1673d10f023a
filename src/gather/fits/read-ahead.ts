/**
 * Many files read ahead in a second thread: of a header's time nearly half is the system's, which opens and closes the
 * file. On one core every file is read when it is asked for.
 */
import { threadsOf } from '../../files/threads.js';
import { type Beginning, RingTaker, type SharedRing, sharedRing } from './ahead-ring.js';

/** The thread's program beside this module. */
const HEADER_WORKER = new URL('./header-worker.js', import.meta.url);
/** Of fewer, the start of a thread takes what it saves. Measured. */
const FEWEST = 4000;

/** What the thread is told. */
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

/** Beginnings of files, to be asked for in their order. */
export interface ReadAhead {
  /** `undefined` where the caller is to read the file itself. */
  of(file: number): Beginning | undefined;
  /** How much of a file has been asked for. */
  want(bytes: number): void;
  stop(): void;
}

const NOTHING: ReadAhead = { of: () => undefined, want: () => {}, stop: () => {} };

/** Begins to read files; to be stopped whatever comes. */
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
  // What it does not read is read by who asks.
  worker.on('error', () => {});
  worker.unref();
  const taker = new RingTaker(ring);
  return { of: (file) => taker.take(file), want: (bytes) => taker.want(bytes), stop: () => taker.stop() };
}
