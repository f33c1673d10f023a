import { closeSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { makeFolder } from './make-folder.js';
import { namedError } from './named-error.js';

/**
 * Writes a file that must not exist yet, completely or not at all: on a full disk no empty file is left that would
 * prevent the next attempt. Missing folders are created.
 *
 * @throws the file system's own error, which names the path; `EEXIST` if the name is taken
 */
export function writeNewFile(path: string, text: string): void {
  makeFolder(dirname(path));
  const descriptor = openSync(path, 'wx');
  try {
    writeFileSync(descriptor, text);
    closeSync(descriptor);
  } catch (error) {
    rmSync(path, { force: true });
    throw namedError(error, path);
  }
}
