import { randomBytes } from 'node:crypto';
import { rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { makeFolder } from './make-folder.js';
import { namedError } from './named-error.js';
import { renamePatiently } from './rename.js';

/**
 * Writes a file so that a reader sees either the old content or the new: the content is written to a new file in the
 * same folder, which is then renamed. Missing folders are created. On failure nothing is left behind.
 *
 * @param file path of the file to make or replace
 * @param content text (as UTF-8) or bytes
 * @throws the file system's own error, which names the file
 */
export async function writeAtomically(file: string, content: string | Uint8Array): Promise<void> {
  const folder = dirname(file);
  makeFolder(folder);
  const beside = join(folder, `.${basename(file)}.${randomBytes(6).toString('hex')}.part`);
  try {
    await writeFile(beside, content, { flag: 'wx' });
    renamePatiently(beside, file);
  } catch (error) {
    await rm(beside, { force: true });
    throw namedError(error, file);
  }
}
