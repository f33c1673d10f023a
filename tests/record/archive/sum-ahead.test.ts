import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { archivedNights } from '../../../src/archive.js';
import { recordText } from '../../../src/record/index.js';
import { keepSums } from '../../../src/record/archive/kept-sums.js';
import { sumAhead } from '../../../src/record/archive/sum-ahead.js';
import { writeAtomically } from '../../../src/report/index.js';
import { frameOf, sessionOf } from '../../support/records.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();

// The build makes the thread's program a start file of its own; tests run after a build.
const program = fileURLToPath(new URL('../../../dist/sum-worker.js', import.meta.url));
const frames = (night: string, count = 3) => Array.from({ length: count }, (_, i) => frameOf(night, i));

/** Thirty nights, a second file of one, frames of one in another's record, a damaged file and one of others. */
function oddArchive(): string {
  const archive = tempFolder();
  for (let day = 1; day <= 30; day++) {
    const night = `2026-09-${String(day).padStart(2, '0')}`;
    const own = frames(day === 12 ? '2026-09-11' : night);
    writeFileSync(join(archive, `${night}.json`), recordText(sessionOf(night, 'a', own)));
  }
  writeFileSync(
    join(archive, '2026-09-05.copy.json'),
    recordText(sessionOf('2026-09-05', 'b', frames('2026-09-05', 5))),
  );
  writeFileSync(join(archive, '2026-09-20.json'), '{"schema":"nightledger/night/1"');
  writeFileSync(join(archive, 'shopping.json'), '[]');
  return archive;
}

describe('records summed up in threads', () => {
  it.each([
    ['threads', program],
    ['a thread that fails', fileURLToPath(import.meta.url)],
  ])('are the same as one after another: %s', async (_, withProgram) => {
    expect(existsSync(program)).toBe(true);
    const counting = 'effective';
    const seen: number[] = [];
    const together = await archivedNights(oddArchive(), {
      counting,
      thread: { program: withProgram, fewest: 1 },
      onProgress: (done) => seen.push(done),
    });
    const alone = await archivedNights(oddArchive(), { counting, thread: { fewest: Infinity } });
    expect(together).toEqual(alone);
    expect(seen).toEqual([...new Set(seen)].sort((a, b) => a - b));
    expect(seen.at(-1)).toBe(32);
  });

  it('are the same where some have their sums beside them', async () => {
    const archive = oddArchive();
    const read = await archivedNights(oddArchive(), { thread: { fewest: Infinity } });
    for (const file of readdirSync(archive).filter((name) => name.startsWith('2026-09-1')))
      await keepSums(archive, file, readFileSync(join(archive, file), 'utf8'), writeAtomically);
    expect(await archivedNights(archive, { thread: { program, fewest: 1 } })).toEqual(read);
  });

  it('are all found but what is no sound record, and no file is touched', async () => {
    const archive = oddArchive();
    const files = readdirSync(archive);
    const sums = await sumAhead(archive, files, { counting: 'clock', program, fewest: 1 });
    expect(sums.size).toBe(availableParallelism() > 1 ? 30 : 0);
    expect(readdirSync(archive)).toEqual(files);
    expect((await sumAhead(archive, files, { counting: 'clock', program })).size).toBe(0);
  });
});
