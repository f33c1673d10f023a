/**
 * A simulated night of any size, for measurements: short subs make many frames, notes pad the logs.
 */
import { writeFiles } from './samples.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from './scenarios.js';
import { writeSession } from './write-session.js';

export interface BenchSize {
  /** Length of a sub, seconds. */
  readonly seconds: number;
  readonly hours: number;
  /** Lines of both logs together, at least. */
  readonly lines: number;
  /** Subs between dithers; 3 when absent. */
  readonly ditherEvery?: number;
}

/** Writes the night and returns how many frames it holds. */
export function writeBenchNight(
  folder: string,
  { seconds, hours, lines, ditherEvery = 3 }: BenchSize,
): { frames: number; lines: number } {
  const begin = Date.UTC(2026, 10, 14, 18, 30);
  const trains = [HERON, WREN].map((t) => ({
    ...t,
    plan: ['Ha', 'OIII', 'SII'].map((filter) => ({ target: 'NGC 281', filter, seconds, count: 40 })),
  }));
  const { files, simulation } = writeSession({
    name: 'bench',
    seed: 1,
    begin: new Date(begin).toISOString(),
    end: new Date(begin + hours * 3_600_000).toISOString(),
    site: CIERZO_HILL,
    trains,
    targets: [TARGETS.ngc281],
    ditherEvery,
    starLost: [],
    clouds: [],
    guidingEverySeconds: 1,
    guidingSigmaArcsec: 0.6,
  });
  let total = 0;
  for (const { id } of trains) {
    const path = `logs/${id}.jsonl`;
    const own = String(files.get(path))
      .split('\n')
      .filter((l) => l !== '');
    const pad = Math.max(0, Math.ceil((lines / trains.length - own.length) / own.length));
    const padded = own.flatMap((line) => {
      const at = (JSON.parse(line) as { at: string }).at;
      return [
        line,
        ...Array.from({ length: pad }, (_, i) =>
          JSON.stringify({ at, event: 'note', text: `nothing to see, line ${i} of the padding` }),
        ),
      ];
    });
    total += padded.length;
    files.set(path, `${padded.join('\n')}\n`);
  }
  writeFiles(folder, files);
  return { frames: simulation.frames.length, lines: total };
}
