/**
 * The sample archive: each night is simulated, laid out as a session folder, read by the program like any other, and
 * its record added to the archive. The truth is summed up from the simulations' own books.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readNights } from '../../../src/pipeline.js';
import { mergeSessions } from '../../../src/merge-sessions.js';
import { addSession, forArchive, type WriteFile } from '../../../src/record/index.js';
import { AUTUMN, autumnScenario } from './autumn.js';
import { writeFiles } from './samples.js';
import type { Truth } from './truth.js';
import { writeSession } from './write-session.js';

/** The present when the sample was made: after the last of its nights. */
export const AUTUMN_NOW_MS = Date.UTC(2026, 10, 25, 12);

export interface ArchiveTruth {
  readonly nights: readonly { night: string; target: string; keptSeconds: number }[];
  readonly totals: readonly Pick<Truth['totals'][number], 'target' | 'filter' | 'train' | 'frames' | 'seconds'>[];
}

const GOALS = `# Goals of the sample archive: hours per filter, both trains together. They stand over those of the rig file.
targets:
  - name: NGC 281
    goals: { Ha: 20h, OIII: 25h, SII: 20h }
  - name: IC 1396
    goals: { Ha: 12h, OIII: 12h, SII: 12h }
  - name: M 33
    goalRatio: { total: 48h, parts: { L: 3, R: 1, G: 1, B: 1 } }
    goals: { Ha: 8h }
`;

const README = `# autumn-archive

An archive of twelve autumn nights: three targets, two trains. One night was imported from its frames alone.

Everything here is invented. The program made the records from seeded simulations (\`npm run samples\`, tests/support/generator). \`expected.json\` holds the simulations' own totals, with which the tests compare the progress report. \`goals.yaml\` has the goals.

    nightledger progress sample-sessions/autumn-archive --out out/progress
`;

/** The truth of the whole autumn. */
export function autumnTruth(): ArchiveTruth {
  const totals = new Map<string, ArchiveTruth['totals'][number]>();
  const nights = AUTUMN.map((night, index) => {
    const { truth } = writeSession(autumnScenario(night, index));
    for (const total of truth.totals) {
      const key = `${total.target}|${total.filter}|${total.train}`;
      const before = totals.get(key);
      totals.set(
        key,
        before
          ? { ...total, frames: add(before.frames, total.frames), seconds: add(before.seconds, total.seconds) }
          : total,
      );
    }
    return {
      night: truth.night,
      target: night.target.name,
      keptSeconds: truth.totals.reduce((sum, t) => sum + t.seconds.kept, 0),
    };
  });
  return { nights, totals: [...totals.values()] };
}

function add(
  a: Truth['totals'][number]['seconds'],
  b: Truth['totals'][number]['seconds'],
): Truth['totals'][number]['seconds'] {
  return { taken: a.taken + b.taken, kept: a.kept + b.kept, doubtful: a.doubtful + b.doubtful, lost: a.lost + b.lost };
}

/** Writes the records of the autumn's nights to an archive. */
export async function writeAutumnRecords(archive: string): Promise<void> {
  const write: WriteFile = async (path, text) => writeFileSync(path, text);
  mkdirSync(archive, { recursive: true });
  for (const [index, night] of AUTUMN.entries()) {
    const folder = mkdtempSync(join(tmpdir(), 'nightledger-autumn-'));
    try {
      writeFiles(folder, writeSession(autumnScenario(night, index), { logs: !night.headersOnly }).files);
      for (const read of await readNights(folder, { nowMs: AUTUMN_NOW_MS })) {
        await addSession(
          archive,
          forArchive(read, { session: `autumn-${index + 1}`, report: null }, 'sample'),
          write,
          mergeSessions,
        );
      }
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }
}

/** Writes the sample archive below `root`, replacing what the generator wrote before. Returns its folder. */
export async function writeAutumnArchive(root: string): Promise<string> {
  const archive = join(root, 'autumn-archive');
  rmSync(archive, { recursive: true, force: true });
  await writeAutumnRecords(archive);
  writeFiles(
    archive,
    new Map([
      ['goals.yaml', GOALS],
      ['README.md', README],
      ['expected.json', `${JSON.stringify(autumnTruth(), null, 1)}\n`],
    ]),
  );
  return archive;
}
