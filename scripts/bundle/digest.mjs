// What tells one build from another: a digest of the sources and of the libraries' versions.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** @param {string} root the project's folder */
export function digestOfSources(root) {
  const hash = createHash('sha256').update(readFileSync(join(root, 'package-lock.json')));
  for (const name of readdirSync(join(root, 'src'), { recursive: true }).sort())
    if (name.endsWith('.ts')) hash.update(`\n${name}\n`).update(readFileSync(join(root, 'src', name)));
  return hash.digest('hex').slice(0, 40);
}
