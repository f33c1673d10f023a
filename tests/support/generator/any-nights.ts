/**
 * Random nights as session folders, of every make that a report reads in another way: two trains or three, with logs or
 * headers alone, with guiding samples or without, in our log format or in invented ones with a clock that runs ahead.
 */
import { join } from 'node:path';
import { randomNight } from '../random-night.js';
import { writeFiles } from './samples.js';
import { writeSession } from './write-session.js';

/** Writes a number of nights into a folder. @returns the folder of each */
export function writeAnyNights(folder: string, count: number): string[] {
  return Array.from({ length: count }, (_, i) => {
    const scenario = randomNight(i + 1, i % 4 === 3 ? 3 : 2);
    const { files } = writeSession(
      { ...scenario, guidingEverySeconds: i % 2 === 0 ? 2 : 0 },
      {
        logs: i % 5 !== 4,
        ...(i % 3 === 1 && i % 4 !== 3 ? { dialects: { companionAheadMs: 1000 * (i - 9) } } : {}),
      },
    );
    const path = join(folder, `random-${i + 1}`);
    writeFiles(path, files);
    return path;
  });
}
