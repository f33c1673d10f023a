/** The sample with drawn stars, or some of its frames: among them those that a dither trails, and those around them. */
import { cpSync } from 'node:fs';
import { inFull } from './runs.js';
import { sampleFolder } from './sample-night.js';

/** Copies the sample to a folder. */
export function copyStarNight(to: string): void {
  const isTaken = inFull(
    () => true,
    (path: string) => !path.endsWith('.gz') || /_00(?:0[1-6]|1[56])\./.test(path),
  );
  cpSync(sampleFolder('star-night'), to, { recursive: true, filter: isTaken });
}
