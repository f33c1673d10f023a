/** A worker thread that draws the charts it receives, one after another. */
import { parentPort } from 'node:worker_threads';
import { chartDrawer } from './canvas.js';
import { drawHere, type ChartJob } from './page-chart.js';

// The libraries are ready when the first chart arrives.
void chartDrawer();

parentPort?.on('message', async ({ number, job }: { number: number; job: ChartJob }) => {
  parentPort?.postMessage({ number, svg: await drawHere(job) });
});
