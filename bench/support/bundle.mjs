// Stages of the program by themselves, bundled as the program is.
import { writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { bundled } from '../../scripts/bundle/options.mjs';

// Without a slash at its end: modules are recognised by it.
const root = fileURLToPath(new URL('../..', import.meta.url)).replace(/[\\/]$/, '');

/**
 * Bundles modules of src into a folder, each by its own path: `gather/fits/index.ts` becomes `gather/fits/index.js`.
 * Beside them stands what loads the program's own modules (`load.cjs`).
 *
 * @param {string} folder is made
 * @param {readonly string[]} modules paths below src
 * @param {readonly string[]} threads programs of threads that modules in common start, from beside those: paths below src
 */
export async function bundle(folder, modules, threads = []) {
  const input = Object.fromEntries([
    ...modules.map((path) => [path.replace(/\.ts$/, ''), join(root, 'src', path)]),
    ...threads.map((path) => [basename(path, '.ts'), join(root, 'src', path)]),
  ]);
  await build(bundled(root, { outDir: folder, input }));
  const loader = { 'compiled-modules': join(root, 'src/cli/compiled-modules.ts') };
  await build(bundled(root, { outDir: join(folder, 'start'), input: loader }));
  writeFileSync(join(folder, 'package.json'), '{"type":"commonjs"}');
}
