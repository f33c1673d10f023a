/**
 * Replaces one set of files with another. Progress is kept in a journal, so that an interrupted swap is completed by
 * the next run; in between, files may be missing, but two editions are never mixed.
 */
import { existsSync, readdirSync, rmdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeFolder } from '../../files/make-folder.js';
import { namedError } from '../../files/named-error.js';
import { readTextFile } from '../../files/read-text.js';
import { renamePatiently } from '../../files/rename.js';
import { isEditionPath, leavesFolder, MANIFEST } from './manifest.js';

/** Folder in the staging folder that holds the new files until they are in place. */
export const NEW = 'new';
const OLD = 'old';
const JOURNAL = 'swap.json';
const MAX_JOURNAL_BYTES = 8_000_000;

/** The files to remove and those to add, by their paths relative to the output folder. */
export interface Swap {
  readonly leaving: readonly string[];
  readonly coming: readonly string[];
}

/**
 * Moves the old files out and the new ones in, the manifest last. On failure everything is restored.
 *
 * @param folder the output folder
 * @param staging a folder within it, with the new files under {@link NEW}
 * @throws FileInUse or the file system's own error, after everything has been restored
 */
export function swapIn(folder: string, staging: string, swap: Swap): void {
  try {
    writeFileSync(join(staging, JOURNAL), JSON.stringify(swap));
  } catch (error) {
    throw namedError(error, join(folder, MANIFEST));
  }
  const undo: (() => void)[] = [];
  const move = (from: string, to: string): void => {
    makeFolder(dirname(to));
    renamePatiently(from, to);
    undo.push(() => renamePatiently(to, from));
  };
  try {
    moveAll(folder, staging, swap, move);
  } catch (error) {
    rmSync(join(staging, JOURNAL), { force: true });
    for (const back of undo.reverse()) back();
    throw error;
  }
  removeEmpty(folder, swap.leaving);
  rmSync(staging, { recursive: true, force: true });
}

/** Completes an interrupted swap, if any; then the staging folder is removed. */
export function finishSwap(folder: string, staging: string): void {
  const swap = readJournal(staging);
  if (swap) {
    moveAll(folder, staging, swap, (from, to) => {
      makeFolder(dirname(to));
      renamePatiently(from, to);
    });
    removeEmpty(folder, swap.leaving);
  }
  rmSync(staging, { recursive: true, force: true });
}

/** Can be repeated after an interruption: a new file that is in place is no longer in the staging folder. */
function moveAll(
  folder: string,
  staging: string,
  { leaving, coming }: Swap,
  move: (from: string, to: string) => void,
): void {
  const isWaiting = (path: string): boolean => existsSync(join(staging, NEW, path));
  const mine = new Set(coming);
  for (const path of [MANIFEST, ...leaving]) {
    if (leavesFolder(folder, path)) continue;
    if (existsSync(join(folder, path)) && (!mine.has(path) || isWaiting(path)))
      move(join(folder, path), join(staging, OLD, path));
  }
  for (const path of coming)
    if (isWaiting(path) && !leavesFolder(folder, path)) move(join(staging, NEW, path), join(folder, path));
}

function readJournal(staging: string): Swap | null {
  try {
    const value: unknown = JSON.parse(readTextFile(join(staging, JOURNAL), { maxBytes: MAX_JOURNAL_BYTES }));
    if (typeof value !== 'object' || value === null || !('leaving' in value) || !('coming' in value)) return null;
    const { leaving, coming } = value;
    const arePaths = (list: unknown): list is string[] =>
      Array.isArray(list) &&
      list.every((path) => typeof path === 'string' && (isEditionPath(path) || path === MANIFEST));
    return arePaths(leaving) && arePaths(coming) ? { leaving, coming } : null;
  } catch {
    return null;
  }
}

/** Removes folders that held only files of the old edition. */
function removeEmpty(folder: string, paths: readonly string[]): void {
  for (const parent of new Set(paths.map(dirname))) {
    for (let path = parent; path !== '.' && path !== ''; path = dirname(path)) {
      try {
        if (readdirSync(join(folder, path)).length > 0) break;
        rmdirSync(join(folder, path));
      } catch {
        break;
      }
    }
  }
}
