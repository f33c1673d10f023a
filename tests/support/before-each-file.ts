/** Loaded before each file of tests: bounds on the memory of attacks, charts that are drawn once, whoever asks,
 * and replays of few runs. */
import { inject } from 'vitest';
import { drawBy } from '../../src/report/charts/thread.js';
import { boundMemory } from '../hostile/support/bounded.js';
import { drawnOnce } from './drawn-once.js';
import { replayInFew } from './few-replays.js';
import { keepIn } from './kept.js';

/** Called by the runner of the compiled tests instead of loading this again. */
export default function beginFile(): void {
  drawBy(drawnOnce);
  keepIn(inject('renderedPages'));
  boundMemory();
  replayInFew();
}

beginFile();
