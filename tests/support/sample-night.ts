/** The committed samples as nights, read once for all test files. */
import { fileURLToPath } from 'node:url';
import type { Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { replayRunsOfThisFile } from './few-replays.js';
import { kept } from './kept.js';

/** The present of every test: a date after all samples. */
export const TEST_NOW_MS = Date.UTC(2026, 10, 30, 12);

export function sampleFolder(name: string): string {
  return fileURLToPath(new URL(`../../sample-sessions/${name}`, import.meta.url));
}

const known = new Map<string, Promise<Night>>();

/** The only night of a sample session. Whoever changes something makes a copy (`altered`). */
export function sampleNight(name: string): Promise<Night> {
  const key = `${name} ${replayRunsOfThisFile()}`;
  const night = known.get(key) ?? kept(`${key.replace(' ', '-')}.sample`, () => read(name));
  known.set(key, night);
  return night;
}

async function read(name: string): Promise<Night> {
  const nights = await readNights(sampleFolder(name), { nowMs: TEST_NOW_MS });
  if (nights.length !== 1 || !nights[0]) throw new Error(`${name} has ${nights.length} nights`);
  return nights[0];
}
