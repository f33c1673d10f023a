/** Nights sorted into a tree for stacking: executes the plan file by file, resumable at any point. */
import { readdirSync, rmSync } from 'node:fs';
import * as disk from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { makeFolder } from '../files/make-folder.js';
import { isAlive } from '../files/processes.js';
import { isWithin } from '../files/within.js';
import { namesBeside } from '../files/safe-name.js';
import { readManifest, writeManifest, type SortedFile, type SortManifest } from './manifest.js';
import { PARTIAL, place, sha256Of, type Disk, type LinkKind } from './place.js';
import type { NightPlan, Placement } from './plan.js';

export { MANIFEST_NAME, type SortedFile, type SortManifest } from './manifest.js';
export { LINK_KINDS, type Disk, type LinkKind } from './place.js';
export { planNight, type NightPlan, type PlacedAs, type Placement } from './plan.js';

/** Number of files after which manifests are updated. */
const SAVE_EVERY = 200;

export interface SortOptions {
  /** Absolute path of the session folder. */
  readonly session: string;
  /** Absolute path of the tree. */
  readonly tree: string;
  /** Methods to try for each file, in order. */
  readonly kinds: readonly LinkKind[];
  /** Present, UTC ms. */
  readonly nowMs: number;
  readonly disk?: Disk;
  readonly onProgress?: (done: number) => void;
}

/** What was done for one night. */
export interface SortedNight {
  readonly manifest: SortManifest;
  /** Absolute path of the manifest. */
  readonly file: string;
  /** Files placed now; the others were already in place. */
  readonly placed: number;
  /** Sentences on files that could not be sorted. */
  readonly failures: readonly string[];
}

/**
 * Sorts one night. Nothing is moved, deleted or overwritten; files placed by an earlier run stay.
 *
 * @throws the file system's own error on a full or unwritable disk; what was sorted until then is in the manifest, and
 * the next run continues from there
 */
export async function sortNight(plan: NightPlan, options: SortOptions): Promise<SortedNight> {
  const { session, tree, nowMs, onProgress } = options;
  const on = options.disk ?? disk;
  const known = readManifest(tree, plan.night, session);
  const files: SortedFile[] = [];
  const failures: string[] = [];
  let placed = 0;
  const manifest = (complete: boolean): SortManifest => ({
    night: plan.night,
    session,
    at: new Date(nowMs).toISOString(),
    complete,
    files,
    rejected: plan.rejected,
    neverWritten: plan.neverWritten,
    lacking: plan.lacking,
  });
  const save = (complete: boolean): Promise<string> => writeManifest(tree, manifest(complete));
  const folders = new Set<string>();
  // The tree is marked before any frame is in it: a killed run can be resumed.
  if (known.size === 0) await save(false);
  try {
    for (const [i, placement] of plan.placements.entries()) {
      if (!folders.has(placement.folder)) {
        await refuseToLeave(tree, placement.folder);
        await on.mkdir(join(tree, placement.folder), { recursive: true });
        removePartial(join(tree, placement.folder));
        folders.add(placement.folder);
      }
      const one = await sortFile(placement, plan.night, known, options, on);
      if (typeof one === 'string') failures.push(one);
      else {
        files.push(one.file);
        if (one.isNew) placed++;
      }
      if ((i + 1) % SAVE_EVERY === 0) await save(false);
      onProgress?.(i + 1);
    }
  } catch (error) {
    // The disk may be full: failure to save the manifest must not hide the reason.
    if (files.length > 0) await save(false).catch(() => undefined);
    throw error;
  }
  makeFolder(tree);
  const complete = failures.length === 0;
  return { manifest: manifest(complete), file: await save(complete), placed, failures };
}

/**
 * A link in the tree may lead anywhere, especially to the frames: it is not followed.
 *
 * @throws Error that names it
 */
async function refuseToLeave(tree: string, folder: string): Promise<void> {
  const home = await disk.realpath(tree);
  let path = tree;
  for (const part of folder.split('/')) {
    path = join(path, part);
    const real = await disk.realpath(path).catch(() => null);
    if (real === null) return;
    if (!isWithin(home, real))
      throw new Error(
        `${path} leads out of the tree, to ${real}; nothing is sorted there: remove the link, or name another tree`,
      );
  }
}

/** @returns the file in the tree, or why it could not be read */
async function sortFile(
  { source, folder, name, as }: Placement,
  night: string,
  known: ReadonlyMap<string, SortedFile>,
  { session, tree, kinds }: SortOptions,
  on: Disk,
): Promise<{ file: SortedFile; isNew: boolean } | string> {
  const original = await originalOf(join(session, source));
  if (original === null) return `${source} is gone or is not a file; it was left out`;
  const { path, stat } = original;
  const placed = await place(path, join(tree, folder), namesBeside(name, night), kinds, {
    on,
    isKnown: (there) => isSame(known.get(`${folder}/${there}`), source, stat),
  });
  const file = `${folder}/${placed.name}`;
  const before = known.get(file);
  const sha256 = isSame(before, source, stat) ? before.sha256 : await sha256Of(path);
  return {
    file: { file, source, as, how: placed.how, sha256, bytes: stat.size, changedMs: stat.mtimeMs },
    isNew: placed.isNew,
  };
}

async function originalOf(path: string): Promise<{ path: string; stat: { size: number; mtimeMs: number } } | null> {
  try {
    const real = await disk.realpath(resolve(path));
    const stat = await disk.stat(real);
    return stat.isFile() ? { path: real, stat } : null;
  } catch {
    return null;
  }
}

/** Whether the manifest knows this very file. */
function isSame(
  before: SortedFile | undefined,
  source: string,
  stat: { readonly size: number; readonly mtimeMs: number },
): before is SortedFile {
  return (
    before !== undefined && before.source === source && before.bytes === stat.size && before.changedMs === stat.mtimeMs
  );
}

/** Removes partial copies left by a killed run. */
function removePartial(folder: string): void {
  for (const name of readdirSync(folder)) {
    const pid = PARTIAL.exec(name)?.[1];
    if (pid !== undefined && !isAlive(Number(pid))) rmSync(join(folder, name), { force: true });
  }
}
