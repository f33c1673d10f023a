/** Sorting onto disks that are full or may not be written to: small file systems in memory, where the user may mount them. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { sortNight, type NightPlan } from '../../src/sorting/index.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();
const mounted: string[] = [];
// The last hook is the first to run: a folder can be removed once nothing is mounted on it.
afterEach(() => {
  for (const folder of mounted.splice(0)) spawnSync('umount', [folder]);
});

const NOW_MS = Date.UTC(2026, 9, 15, 9);
const HOME = 'NGC-281/Ha/heron';
const NAMES = ['a.fits', 'b.fits', 'c.fits'];

/** A file system of so many kibibytes in memory; `null` where none may be mounted. */
function smallDisk(kib: number): string | null {
  const folder = tempFolder();
  const { status } = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${kib}k`, 'tmpfs', folder]);
  if (status !== 0) return null;
  mounted.push(folder);
  return folder;
}

const probe = smallDisk(64);
const canMount = probe !== null;
if (probe !== null) spawnSync('umount', [probe]);

function sessionOf(bytes: number): string {
  const folder = tempFolder();
  for (const name of NAMES) writeFileSync(join(folder, name), Buffer.alloc(bytes, name));
  return folder;
}

const PLAN: NightPlan = {
  night: '2026-10-14',
  placements: NAMES.map((name) => ({ source: name, folder: HOME, name, as: 'kept' })),
  rejected: [],
  neverWritten: 0,
  lacking: [],
};

describe.skipIf(!canMount)('a tree on a disk of its own', () => {
  it('that is full stops the sort with no half file, and takes the rest once there is room', async () => {
    const disk = smallDisk(128) ?? '';
    const [session, tree] = [sessionOf(40_000), join(disk, 'tree')];
    const sort = () => sortNight(PLAN, { session, tree, kinds: ['hard', 'copy'], nowMs: NOW_MS });
    writeFileSync(join(disk, 'other'), Buffer.alloc(40_000));
    await expect(sort()).rejects.toMatchObject({ code: 'ENOSPC' });
    const there = readdirSync(join(tree, HOME));
    expect(there.length).toBeGreaterThan(0);
    expect(there.length).toBeLessThan(NAMES.length);
    for (const name of there)
      expect(readFileSync(join(tree, HOME, name)).equals(readFileSync(join(session, name))), name).toBe(true);
    expect(spawnSync('mount', ['-o', 'remount,size=512k', disk]).status).toBe(0);
    const again = await sort();
    // Another disk has no hard links from here: they are copies.
    expect(again.manifest.files.map(({ how }) => how)).toEqual(['copy', 'copy', 'copy']);
    expect(again).toMatchObject({ placed: NAMES.length - there.length, manifest: { complete: true } });
    expect(readdirSync(join(tree, HOME)).sort()).toEqual(NAMES);
  });

  it('that may only be read is left as it is, and the error says so', async () => {
    const disk = smallDisk(256) ?? '';
    mkdirSync(join(disk, 'tree'));
    expect(spawnSync('mount', ['-o', 'remount,ro', disk]).status).toBe(0);
    const session = sessionOf(100);
    await expect(
      sortNight(PLAN, { session, tree: join(disk, 'tree'), kinds: ['copy'], nowMs: NOW_MS }),
    ).rejects.toMatchObject({ code: 'EROFS' });
    expect(readdirSync(join(disk, 'tree'))).toEqual([]);
    expect(readdirSync(session).sort()).toEqual(NAMES);
  });
});
