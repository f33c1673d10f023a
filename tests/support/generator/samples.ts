/**
 * The committed sample sessions, as the generator writes them.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { STAR_NIGHT } from './star-night.js';
import { HEADERS_ONLY, MIXED_DIALECTS, TWIN_NIGHT } from './scenarios.js';
import { writeSession, type SessionFiles, type WrittenSession } from './write-session.js';

interface Sample {
  readonly name: string;
  readonly purpose: string;
  readonly make: (paints?: (path: string) => boolean) => WrittenSession;
}

export const SAMPLES: readonly Sample[] = [
  {
    name: 'twin-night',
    purpose:
      'A whole autumn night of two trains: three filters, dithers every 3 frames with waits, a refocus on the guiding train that costs the companion a frame, a lost guide star, a meridian flip, and a hold for cloud.',
    make: () => writeSession(TWIN_NIGHT),
  },
  {
    name: 'headers-only',
    purpose:
      'A short night with nothing but gzipped frames: no rig file and no logs. Gaps are interpreted from the headers alone.',
    make: () => writeSession(HEADERS_ONLY, { logs: false, rig: false, gzip: true }),
  },
  {
    name: 'mixed-dialects',
    purpose:
      'The night on which summer time ends. Both trains have logs in invented text formats, in local time; the guiding has a third, in milliarcseconds with inverted signs. The companion’s computer is 7.4 s ahead. Dialect files describe all three formats.',
    make: () => writeSession(MIXED_DIALECTS, { dialects: { companionAheadMs: 7400 } }),
  },
  {
    name: 'star-night',
    purpose:
      'An hour and a half with stars in the pixels: corners of both sensors, gzipped. A refocus on the guiding train pauses the guiding and trails a frame of the companion; the companion drifts out of focus until it is refocused; a cloud that nobody logged; a dither during exposures; a lost guide star that harmed nothing.',
    make: (paints) => writeSession(STAR_NIGHT, { gzip: true, paints }),
  },
];

/**
 * The files of a sample, its README and truth included.
 *
 * @param paints frames whose pixels are drawn, where the sample has any drawn; all when absent
 */
export function sampleFiles(sample: Sample, paints?: (path: string) => boolean): SessionFiles {
  const { files, truth } = sample.make(paints);
  const pixels = truth.drawn ? 'pixels are drawn' : 'pixels are tiny';
  const all: SessionFiles = new Map(files);
  all.set('expected.json', `${JSON.stringify(truth, null, 1)}\n`);
  all.set(
    'README.md',
    `# ${sample.name}\n\n${sample.purpose}\n\nEverything here is invented, and written by \`npm run samples\` from a seeded simulation (tests/support/generator). Headers are real FITS, ${pixels}. \`expected.json\` holds the simulation's own records, with which the tests compare the report.\n`,
  );
  return all;
}

/** Writes every sample below `root`, replacing what the generator wrote before. Returns the folders. */
export function writeSamples(root: string): string[] {
  return SAMPLES.map((sample) => {
    const folder = join(root, sample.name);
    rmSync(folder, { recursive: true, force: true });
    writeFiles(folder, sampleFiles(sample));
    return folder;
  });
}

/** Writes files below a folder. */
export function writeFiles(folder: string, files: SessionFiles): void {
  for (const [path, content] of files) {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, content);
  }
}
