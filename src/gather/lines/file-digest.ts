/**
 * The SHA-256 of a file that is being read: of a small one as its chunks come, of a large one in a second thread, which
 * reads the same open file.
 */
import { createHash } from 'node:crypto';
import { readSync } from 'node:fs';
import { join } from 'node:path';
import { threadsOf } from '../../files/threads.js';

/** The thread's program, next to this module once it is built. */
const DIGEST_WORKER = join(import.meta.dirname, 'digest-worker.js');
/** Digesting this many bytes takes 30 ms, and starting a thread 3 ms of the caller's time. */
const WORTH_A_THREAD = 32 * 2 ** 20;
const READ_BYTES = 512 * 1024;

/** The thread's input. */
export interface DigestTask {
  /** Of the open file; the thread that opened it closes it. */
  readonly descriptor: number;
  readonly sizeBytes: number;
}

/** A digest in the making. */
export interface FileDigest {
  /** Takes the file's next bytes. */
  update(chunk: Uint8Array): void;
  /** SHA-256 (hex). To be awaited before the file is closed, once. */
  end(): Promise<string>;
}

/**
 * Begins to digest an open file.
 *
 * @param sizeBytes how much of it
 * @param program the thread's program, a built module
 * @param fewest bytes of a file that is worth a thread
 */
export function fileDigest(
  descriptor: number,
  sizeBytes: number,
  program: string | URL = DIGEST_WORKER,
  fewest = WORTH_A_THREAD,
): FileDigest {
  return sizeBytes >= fewest && threadsOf(program) > 1 ? inThread({ descriptor, sizeBytes }, program) : asItComes();
}

function asItComes(): FileDigest {
  const hash = createHash('sha256');
  return { update: (chunk) => hash.update(chunk), end: async () => hash.digest('hex') };
}

function inThread(task: DigestTask, program: string | URL): FileDigest {
  // Taken only now: most logs are small, and every module costs start-up time.
  const { Worker } = process.getBuiltinModule('node:worker_threads');
  const worker = new Worker(program, { workerData: task });
  const found = new Promise<string | null>((resolve) => {
    worker.on('message', resolve);
    worker.on('error', () => resolve(null));
    worker.on('exit', () => resolve(null));
  });
  // What fails there is done here.
  const end = async (): Promise<string> => (await found) ?? digestOfBytes(task.descriptor, task.sizeBytes);
  return { update: () => {}, end };
}

/** SHA-256 (hex) of an open file's first bytes, or of all if it has become shorter. */
export function digestOfBytes(descriptor: number, sizeBytes: number): string {
  const hash = createHash('sha256');
  const buffer = Buffer.allocUnsafeSlow(READ_BYTES);
  for (let at = 0; at < sizeBytes; ) {
    const got = readOrNone(descriptor, buffer, Math.min(READ_BYTES, sizeBytes - at), at);
    if (got === 0) break;
    hash.update(buffer.subarray(0, got));
    at += got;
  }
  return hash.digest('hex');
}

/** A read error ends the file: whoever reads its text reports it. */
function readOrNone(descriptor: number, buffer: Buffer, wanted: number, at: number): number {
  try {
    return readSync(descriptor, buffer, 0, wanted, at);
  } catch {
    return 0;
  }
}
