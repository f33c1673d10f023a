/** What was sorted for stacking, and where to: `sorted.json` in the archive. */
import { join } from 'node:path';
import { z } from 'zod';
import { withLock } from '../../files/lock.js';
import { readTextFile } from '../../files/read-text.js';
import { writeAtomically } from '../../files/write-atomically.js';

const SCHEMA = 'nightledger/archive-sorted/1';
const FILE = 'sorted.json';
const MAX_BYTES = 16_000_000;

const note = z.object({
  night: z.string(),
  session: z.string(),
  into: z.string(),
  at: z.string(),
  complete: z.boolean(),
  files: z.number(),
});
const text = z.object({ schema: z.literal(SCHEMA), sorted: z.array(note) });

/** One night of a session that was sorted into a tree. */
export type SortedNote = z.infer<typeof note>;

/** Records what was sorted; the same night into the same tree again replaces the older entry. */
export async function noteSorted(archive: string, notes: readonly SortedNote[]): Promise<void> {
  const key = ({ night, session, into }: SortedNote): string => JSON.stringify([night, session, into]);
  await withLock(archive, async () => {
    const all = new Map([...sortedOf(archive), ...notes].map((one) => [key(one), one]));
    const sorted = [...all.values()].sort((a, b) => (key(a) < key(b) ? -1 : 1));
    await writeAtomically(join(archive, FILE), `${JSON.stringify({ schema: SCHEMA, sorted }, null, 1)}\n`);
  });
}

/** What the archive has recorded; empty if nothing, or if its file is damaged. */
export function sortedOf(archive: string): readonly SortedNote[] {
  try {
    return text.parse(JSON.parse(readTextFile(join(archive, FILE), { maxBytes: MAX_BYTES }))).sorted;
  } catch {
    return [];
  }
}
