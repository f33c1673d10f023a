/**
 * The committed samples as nights, read once per test file.
 */
import { fileURLToPath } from 'node:url';
import type { Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';

/** The present of every test: a date after all samples. */
export const TEST_NOW_MS = Date.UTC(2026, 10, 30, 12);

export function sampleFolder(name: string): string {
  return fileURLToPath(new URL(`../../sample-sessions/${name}`, import.meta.url));
}

/** The only night of a sample session. */
export async function sampleNight(name: string): Promise<Night> {
  const nights = await readNights(sampleFolder(name), { nowMs: TEST_NOW_MS });
  if (nights.length !== 1 || !nights[0]) throw new Error(`${name} has ${nights.length} nights`);
  return nights[0];
}
