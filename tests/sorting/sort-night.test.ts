import { existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import * as disk from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sortNight, type Disk, type LinkKind, type NightPlan } from '../../src/sorting/index.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const NOW = Date.UTC(2026, 9, 15, 8);

interface Given {
  readonly [source: string]: string;
}

function sessionOf(files: Given): string {
  const folder = tempFolder();
  for (const [file, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), content);
  }
  return folder;
}

const planOf = (sources: readonly string[], night = '2026-10-14'): NightPlan => ({
  night,
  placements: sources.map((source) => ({
    source,
    folder: 'NGC-281/Ha/heron',
    name: source.split('/').at(-1) ?? source,
    as: 'kept',
  })),
  rejected: [],
  neverWritten: 0,
  lacking: [],
});

const sort = (session: string, tree: string, plan: NightPlan, kinds: readonly LinkKind[], on?: Disk) =>
  sortNight(plan, { session, tree, kinds, nowMs: NOW, disk: on });

const failing = (code: string, on: 'link' | 'symlink' | 'copyFile' | 'mkdir', after = 0): Disk => {
  let calls = 0;
  const fail = (path: string): never => {
    throw Object.assign(new Error(`${code}: ${path}`), { code, path });
  };
  return {
    link: (a, b) => (on === 'link' && calls++ >= after ? fail(b) : disk.link(a, b)),
    symlink: (a, b) => (on === 'symlink' && calls++ >= after ? fail(b) : disk.symlink(a, b)),
    copyFile: (a, b, mode) => (on === 'copyFile' && calls++ >= after ? fail(b) : disk.copyFile(a, b, mode)),
    mkdir: (a, o) => (on === 'mkdir' && calls++ >= after ? fail(a) : disk.mkdir(a, o)),
  };
};

const home = (tree: string): string => join(tree, 'NGC-281/Ha/heron');

describe('a night sorted', () => {
  it.each([['hard'], ['symbolic'], ['copy']] as const)(
    'by %s has every file, and the originals as they were',
    async (kind) => {
      const session = sessionOf({ 'frames/a 1.fits': 'one', "frames/it's.fits": 'two' });
      const tree = join(tempFolder(), 'tree');
      const { manifest, placed } = await sort(session, tree, planOf(['frames/a 1.fits', "frames/it's.fits"]), [kind]);
      expect(placed).toBe(2);
      expect(readFileSync(join(home(tree), 'a 1.fits'), 'utf8')).toBe('one');
      expect(lstatSync(join(home(tree), 'a 1.fits')).isSymbolicLink()).toBe(kind === 'symbolic');
      expect(statSync(join(session, 'frames/a 1.fits')).nlink).toBe(kind === 'hard' ? 2 : 1);
      // SHA-256 of "one": sha256sum.
      expect(manifest.files[0]).toMatchObject({
        source: 'frames/a 1.fits',
        how: kind,
        sha256: '7692c3ad3540bb803c020b3aee66cd8887123234ea0c6e7143c0add73ff431ed',
        bytes: 3,
      });
      expect((await sort(session, tree, planOf(['frames/a 1.fits', "frames/it's.fits"]), [kind])).placed).toBe(0);
      expect(readdirSync(home(tree))).toHaveLength(2);
    },
  );

  it('takes the next way where the disk has no such links', async () => {
    const session = sessionOf({ 'a.fits': 'one' });
    const tree = tempFolder();
    const { manifest } = await sort(session, tree, planOf(['a.fits']), ['hard', 'symbolic'], failing('EXDEV', 'link'));
    expect(manifest.files[0]?.how).toBe('symbolic');
  });

  it('overwrites nothing: another file of that name keeps it', async () => {
    const session = sessionOf({ 'x/a.fits': 'one', 'y/a.fits': 'two' });
    const tree = tempFolder();
    mkdirSync(home(tree), { recursive: true });
    writeFileSync(join(home(tree), 'a.fits'), 'mine');
    await sort(session, tree, planOf(['x/a.fits', 'y/a.fits']), ['copy']);
    await sort(session, tree, planOf(['x/a.fits', 'y/a.fits']), ['copy']);
    expect(readdirSync(home(tree)).sort()).toEqual(['a.fits', 'a_2026-10-14-2.fits', 'a_2026-10-14.fits']);
    expect(readFileSync(join(home(tree), 'a.fits'), 'utf8')).toBe('mine');
  });

  it('stops at a full disk with nothing half written, and goes on from there', async () => {
    const session = sessionOf({ 'a.fits': 'one', 'b.fits': 'two', 'c.fits': 'three' });
    const tree = tempFolder();
    const plan = planOf(['a.fits', 'b.fits', 'c.fits']);
    await expect(sort(session, tree, plan, ['copy'], failing('ENOSPC', 'copyFile', 1))).rejects.toMatchObject({
      code: 'ENOSPC',
    });
    expect(readdirSync(home(tree))).toEqual(['a.fits']);
    expect(await sort(session, tree, plan, ['copy'])).toMatchObject({ placed: 2, manifest: { complete: true } });
  });

  it('says so where the tree cannot be written to', async () => {
    const session = sessionOf({ 'a.fits': 'one' });
    await expect(
      sort(session, tempFolder(), planOf(['a.fits']), ['copy'], failing('EROFS', 'mkdir')),
    ).rejects.toMatchObject({ code: 'EROFS' });
  });

  it('leaves out what is gone, and says so', async () => {
    const session = sessionOf({ 'a.fits': 'one' });
    const { failures, manifest } = await sort(session, tempFolder(), planOf(['gone.fits', 'a.fits']), ['hard']);
    expect(failures).toHaveLength(1);
    expect(manifest).toMatchObject({ complete: false, files: [{ source: 'a.fits' }] });
  });

  it('clears away the half copy of a run that was killed', async () => {
    const session = sessionOf({ 'a.fits': 'one' });
    const tree = tempFolder();
    mkdirSync(home(tree), { recursive: true });
    writeFileSync(join(home(tree), '.nightledger-4194303.part'), 'o');
    await sort(session, tree, planOf(['a.fits']), ['copy']);
    expect(readdirSync(home(tree))).toEqual(['a.fits']);
  });

  it('has a manifest for each night, beside one another', async () => {
    const session = sessionOf({ 'a.fits': 'one', 'b.fits': 'two' });
    const tree = tempFolder();
    await sort(session, tree, planOf(['a.fits']), ['hard']);
    await sort(session, tree, planOf(['b.fits'], '2026-10-15'), ['hard']);
    expect(readdirSync(tree).filter((name) => name.startsWith('sorted-'))).toHaveLength(2);
    expect(existsSync(join(home(tree), 'b.fits'))).toBe(true);
  });
});
