import { mkdirSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { namedError } from './named-error.js';

/** The path exists but does not accept new folders, such as system tables that look like folders. */
export class NoFolderThere extends Error {
  override readonly name = 'NoFolderThere';
}

/**
 * Creates a folder and its missing parents. Node's own `recursive` loops forever if an existing parent refuses new
 * folders by claiming not to exist, as `/proc` does (Node 20).
 *
 * @param mode permissions of created folders, if not the default
 * @returns whether it was created; false if it existed
 * @throws NoFolderThere; the file system's own error, which names the folder
 */
export function makeFolder(path: string, mode?: number): boolean {
  if (kindOf(path) === 'folder') return false;
  try {
    make(path, mode);
    return true;
  } catch (error) {
    // Another program may have made it meanwhile.
    if (kindOf(path) === 'folder') return false;
    throw namedError(error, path);
  }
}

function make(path: string, mode: number | undefined): void {
  const around = dirname(path);
  if (around !== path && kindOf(around) === 'none') makeFolder(around, mode);
  try {
    mkdirSync(path, mode);
  } catch (error) {
    const isMissing = error instanceof Error && 'code' in error && error.code === 'ENOENT';
    if (isMissing && kindOf(around) === 'folder')
      throw new NoFolderThere(`${path} cannot be made, because ${around} accepts no new folders; name another`);
    throw error;
  }
}

/** What is at a path, as far as visible. */
function kindOf(path: string): 'folder' | 'other' | 'none' {
  try {
    const stat = statSync(path, { throwIfNoEntry: false });
    return stat === undefined ? 'none' : stat.isDirectory() ? 'folder' : 'other';
  } catch {
    return 'none';
  }
}
