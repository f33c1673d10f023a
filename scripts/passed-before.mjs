// A check of the whole project that is not repeated where nothing has changed since it last passed.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/**
 * A digest of all files that are not ignored, by name and content, and of the packages that are installed.
 *
 * @param {string} root the project's folder
 * @returns {string | null} null if unknown: outside of a repository, or if a file cannot be read
 */
export function digestOfProject(root) {
  const { status, stdout } = spawnSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 64 * 2 ** 20,
  });
  if (status !== 0) return null;
  const hash = createHash('sha256').update(process.version);
  try {
    for (const name of [...new Set(stdout.split('\0'))].filter((one) => one !== '').sort()) {
      const path = join(root, name);
      // Removed, and not yet committed.
      if (!existsSync(path)) continue;
      const content = readFileSync(path);
      hash.update(`${name}\0${content.length}\0`).update(content);
    }
    hash.update(readFileSync(join(root, 'node_modules/.package-lock.json')));
  } catch {
    return null;
  }
  return hash.digest('hex');
}

/**
 * Makes a check, or passes it over.
 *
 * @template {{ readonly passed: boolean }} T
 * @param {string} file keeps the digest of what passed last
 * @param {() => string | null} digestOf asked before and after: what changes meanwhile has not been checked
 * @param {() => Promise<T>} check
 * @returns {Promise<T | { readonly passed: true, readonly output: string }>}
 */
export async function unlessPassed(file, digestOf, check) {
  const digest = digestOf();
  if (digest !== null && existsSync(file) && readFileSync(file, 'utf8') === digest) return { passed: true, output: '' };
  const result = await check();
  if (result.passed && digest !== null && digest === digestOf()) {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, digest);
  }
  return result;
}
