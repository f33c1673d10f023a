/** Worker threads for frames. */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { threadsOf } from '../files/threads.js';
import type { StarReading } from '../model/index.js';
import { frameMeasurer, type MeasureFrame } from './measure-frame.js';
import type { FrameMeasurement, FrameToMeasure } from './types.js';

/**
 * Node 20 can abort the whole process when a thread ends while the engine still compiles its code in the background: a
 * thread is only ended after being idle for this long, or with the process.
 */
const QUIET_MS = 1000;

/** The thread's program beside this module. */
export const STAR_WORKER = join(import.meta.dirname, 'star-worker.js');

/** Number of threads for a number of frames; 0 for the calling thread. */
export function threadsFor(frames: number, asked: number | undefined, program: string): number {
  const most = threadsOf(program);
  // Starting a thread takes longer than a frame or two.
  if (most === 0 || (asked === undefined && frames < 3)) return 0;
  return Math.min(asked ?? most, frames);
}

/**
 * Measures frames in order as far as threads allow; results come as they are ready.
 *
 * @param threads 0 for the calling thread
 * @param program the thread's program, a built module
 * @param signal ends the work after the current frames, or immediately if threads do it
 */
export async function measureAll(
  frames: readonly FrameToMeasure[],
  by: StarReading,
  threads: number,
  program: string,
  signal: AbortSignal | undefined,
  onResult: (frame: FrameToMeasure, measurement: FrameMeasurement) => void,
): Promise<void> {
  const queue = frames[Symbol.iterator]();
  const lanes = Array.from({ length: Math.max(1, threads) }, () =>
    threads === 0 ? inlineLane() : new ThreadLane(program),
  );
  const stop = (): void => lanes.forEach((lane) => lane.stop());
  signal?.addEventListener('abort', stop, { once: true });
  try {
    await Promise.all(
      lanes.map(async (lane) => {
        // The iterator is shared: each lane takes the next frame.
        for (const frame of queue) {
          if (signal?.aborted === true) return;
          const measurement = await lane.measure(frame, by);
          if (measurement !== undefined) onResult(frame, measurement);
        }
      }),
    );
  } finally {
    signal?.removeEventListener('abort', stop);
    stop();
  }
}

interface Lane {
  /** `undefined` where the work was stopped. */
  measure(frame: FrameToMeasure, by: StarReading): Promise<FrameMeasurement | undefined>;
  stop(): void;
}

function inlineLane(): Lane {
  const measure: MeasureFrame = frameMeasurer();
  return {
    measure: async (frame, by) => {
      // Yields to timers and an interruption.
      await new Promise((resolve) => setImmediate(resolve));
      return measure(frame, by);
    },
    stop: () => {},
  };
}

/** One thread; replaced after a crash, so that one frame cannot take the others with it. */
class ThreadLane implements Lane {
  private worker: Worker | undefined;
  private answer: ((measurement: FrameMeasurement | undefined) => void) | undefined;
  private stopped = false;

  constructor(private readonly program: string) {}

  measure(frame: FrameToMeasure, by: StarReading): Promise<FrameMeasurement | undefined> {
    if (this.stopped) return Promise.resolve(undefined);
    const worker = this.worker ?? this.start();
    return new Promise((resolve) => {
      this.answer = resolve;
      worker.postMessage({ frame, by });
    });
  }

  stop(): void {
    this.stopped = true;
    const worker = this.worker;
    if (worker === undefined) return;
    this.settle(undefined, worker);
    worker.unref();
    setTimeout(() => void worker.terminate(), QUIET_MS).unref();
  }

  /** Its listeners stay for as long as the thread lives: one answer is awaited at a time. */
  private start(): Worker {
    const worker = new Worker(this.program);
    this.worker = worker;
    worker.on('message', (measurement: FrameMeasurement) => this.settle(measurement));
    worker.on('error', (error) => this.settle({ reason: `measuring it failed (${error.message})` }, worker));
    worker.on('exit', () =>
      this.settle(this.stopped ? undefined : { reason: 'measuring it ended unexpectedly' }, worker),
    );
    return worker;
  }

  /** @param ended the thread that has ended */
  private settle(measurement: FrameMeasurement | undefined, ended?: Worker): void {
    if (ended !== undefined) {
      // An older thread's end is irrelevant to its replacement.
      if (ended !== this.worker) return;
      this.worker = undefined;
    }
    const answer = this.answer;
    this.answer = undefined;
    answer?.(measurement);
  }
}
