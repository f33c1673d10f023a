import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));

let root: string | undefined;

/**
 * Folder of the package itself. Found by walking up to the folder with the styles, so that it is the same for sources,
 * tests and the built program.
 *
 * @throws Error when the styles are not shipped with the program
 */
function packageRoot(): string {
  if (root !== undefined) return root;
  for (let folder = here; ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'templates', 'styles', 'base.css'))) return (root = folder);
    if (folder === dirname(folder))
      throw new Error('the folder "templates" is missing beside the program: install nightledger again');
  }
}

/** Text of a file under `templates/`. */
export function readTemplate(path: string): string {
  return readFileSync(join(packageRoot(), 'templates', path), 'utf8');
}

/** Absolute path of a font file: next to the built program, else in its package. */
export function fontFile(font: string, path: string): string {
  const shipped = join(here, 'fonts', font, path);
  if (existsSync(shipped)) return shipped;
  return join(dirname(createRequire(import.meta.url).resolve(`@fontsource/${font}/package.json`)), path);
}
