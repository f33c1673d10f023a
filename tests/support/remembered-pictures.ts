/** Loaded before each file of tests: its pages have charts that are drawn once, whoever asks for them. */
import { drawBy } from '../../src/report/charts/thread.js';
import { drawnOnce } from './drawn-once.js';

drawBy(drawnOnce);
