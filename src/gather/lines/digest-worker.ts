/** A thread that digests a file while another reads its text. */
import { parentPort, workerData } from 'node:worker_threads';
import { digestOfBytes } from './file-digest.js';
import type { DigestTask } from './file-digest.js';

const { descriptor, sizeBytes } = workerData as DigestTask;
parentPort?.postMessage(digestOfBytes(descriptor, sizeBytes));
