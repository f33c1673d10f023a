import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const require = createRequire(import.meta.url);

let root: string | undefined;

/**
 * Folder of the package itself. Found by walking up to the folder that holds `templates/night.hbs`, so that it is
 * the same for sources, tests and the built program.
 *
 * @throws Error when the templates are not shipped with the program
 */
export function packageRoot(): string {
  if (root !== undefined) return root;
  for (let folder = dirname(fileURLToPath(import.meta.url)); ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'templates', 'night.hbs'))) return (root = folder);
    if (folder === dirname(folder))
      throw new Error('the folder "templates" is missing beside the program: install nightledger again');
  }
}

/** Text of a file under `templates/`. */
export function readTemplate(path: string): string {
  return readFileSync(join(packageRoot(), 'templates', path), 'utf8');
}

/** Absolute path of a file inside an installed dependency. */
export function dependencyFile(name: string, path: string): string {
  return join(dirname(require.resolve(`${name}/package.json`)), path);
}
