// What tells whether the tests have been compiled from the files as they are now.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';

/**
 * A digest of where a project lies, of its libraries, and of the names, sizes and times of its files. Their content is
 * not read: thousands of samples lie beside the tests.
 *
 * @param {string} root the project's folder
 * @param {readonly string[]} folders below it
 */
export function digestOfFiles(root, folders) {
  const hash = createHash('sha256').update(`${root}\0${process.version}\0`);
  hash.update(readFileSync(join(root, 'node_modules/.package-lock.json')));
  for (const folder of folders)
    for (const name of readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).sort()) {
      const file = statSync(join(root, folder, name));
      // A folder's time changes with files that come and go, which are named here themselves.
      if (file.isFile()) hash.update(`${folder}/${name}\0${file.size}\0${file.mtimeMs}\0`);
    }
  return hash.digest('hex');
}
