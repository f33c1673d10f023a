/**
 * Draws charts in a worker thread, for callers that have much else to do meanwhile. On a machine with one core, or if
 * nobody started the thread, they are drawn in the calling thread, with the same results.
 */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { threadsOf } from '../../files/threads.js';
import { drawHere, type ChartJob } from './page-chart.js';

/** The thread's program beside this module. */
const CHART_WORKER = join(import.meta.dirname, 'chart-worker.js');

interface Pending {
  readonly job: ChartJob;
  readonly settle: (svg: string | Promise<string>) => void;
}

/** A drawing thread; it keeps the process alive only while drawing. */
class ChartThread {
  private readonly worker: Worker;
  private readonly pending = new Map<number, Pending>();
  private count = 0;
  private ended = false;

  constructor(program: string) {
    this.worker = new Worker(program);
    this.worker.on('message', ({ number, svg }: { number: number; svg: string }) => this.answer(number, svg));
    // What it failed to draw is drawn here; if that fails too, the caller gets the reason.
    this.worker.on('error', () => this.end());
    this.worker.on('exit', () => this.end());
    // After its listeners: adding the first one reverts this.
    this.worker.unref();
  }

  draw(job: ChartJob): Promise<string> {
    if (this.ended) return drawHere(job);
    const number = this.count++;
    this.worker.ref();
    return new Promise((settle) => {
      this.pending.set(number, { job, settle });
      this.worker.postMessage({ number, job });
    });
  }

  private answer(number: number, svg: string): void {
    this.pending.get(number)?.settle(svg);
    this.pending.delete(number);
    if (this.pending.size === 0) this.worker.unref();
  }

  private end(): void {
    this.ended = true;
    for (const { job, settle } of this.pending.values()) settle(drawHere(job));
    this.pending.clear();
  }
}

/** Draws a picture. @returns SVG as the page takes it */
export type DrawPicture = (job: ChartJob) => Promise<string>;

let draw: DrawPicture = drawHere;

/**
 * Replaces the function that draws every picture from now on, with a caching one for example. @returns the previous one
 */
export function drawBy(other: DrawPicture): DrawPicture {
  const before = draw;
  draw = other;
  return before;
}

/**
 * Starts the thread, to be called well before the first chart is drawn: it loads its libraries meanwhile.
 *
 * @param program the thread's program, a built module
 */
export function startDrawing(program = CHART_WORKER): void {
  if (draw !== drawHere || threadsOf(program) < 2) return;
  const thread = new ChartThread(program);
  drawBy((job) => thread.draw(job));
}

/** Draws a picture. @returns SVG as the page takes it */
export function pageChart(job: ChartJob): Promise<string> {
  return draw(job);
}
