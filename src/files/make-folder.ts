import { mkdirSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { namedError } from './named-error.js';

/** Something is there, and takes no new folders: the system's own tables, say, which look like folders. */
export class NoFolderThere extends Error {
  override readonly name = 'NoFolderThere';
}

/**
 * Makes a folder and those around it that are missing. Node's own `recursive` goes on forever where a folder that is
 * there refuses new ones by saying that it is not, as `/proc` does (Node 20).
 *
 * @param mode permissions of folders that are made, where not as usual
 * @returns whether it was made; false where it was there
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
      throw new NoFolderThere(`${path} cannot be made, for ${around} takes no new folders; name a folder elsewhere`);
    throw error;
  }
}

/** What is at a path, as far as it can be seen. */
function kindOf(path: string): 'folder' | 'other' | 'none' {
  try {
    const stat = statSync(path, { throwIfNoEntry: false });
    return stat === undefined ? 'none' : stat.isDirectory() ? 'folder' : 'other';
  } catch {
    return 'none';
  }
}
