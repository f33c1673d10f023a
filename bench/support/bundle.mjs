// Stages of the program by themselves, bundled as the program is.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { bundled } from '../../scripts/bundle/options.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

/**
 * Bundles modules of src into a folder, each by its own path: `gather/fits/index.ts` becomes `gather/fits/index.js`.
 *
 * @param {string} folder is made
 * @param {readonly string[]} modules paths below src
 */
export async function bundle(folder, modules) {
  const input = Object.fromEntries(modules.map((path) => [path.replace(/\.ts$/, ''), join(root, 'src', path)]));
  await build(bundled(root, { outDir: folder, input }));
  writeFileSync(join(folder, 'package.json'), '{"type":"module"}');
}
