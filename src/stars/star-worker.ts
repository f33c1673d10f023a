/** A worker thread that measures the frames it receives, one after another. */
import { parentPort } from 'node:worker_threads';
import type { StarReading } from '../model/index.js';
import { frameMeasurer } from './measure-frame.js';
import type { FrameToMeasure } from './types.js';

const measure = frameMeasurer();

parentPort?.on('message', async ({ frame, by }: { frame: FrameToMeasure; by: StarReading }) => {
  parentPort?.postMessage(await measure(frame, by));
});
