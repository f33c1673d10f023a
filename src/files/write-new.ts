import { closeSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { makeFolder } from './make-folder.js';
import { namedError } from './named-error.js';

/**
 * Writes a file that must not be there yet, whole or not at all: on a full disk no empty file is left that would stand
 * in the way of the next try. Missing folders are made.
 *
 * @throws the file system's own error, which names the path; `EEXIST` where there is something of that name
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
