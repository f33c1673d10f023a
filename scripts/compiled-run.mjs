// How the compiled tests are run (vitest.compiled.config.ts).
import { join, relative, sep } from 'node:path';
import { root } from './prepare.mjs';

/**
 * Arguments of the test runner.
 *
 * @param {...string} more its options, and paths of test files, or parts of them, as their sources are called
 */
export function compiled(...more) {
  const named = more.map((one) => one.replace(/\.test\.ts$/, '.test.mjs'));
  return ['run', '--config', join(root, 'vitest.compiled.config.ts'), ...named];
}

/** The source of a compiled test file, below the project's folder. */
export function sourceOf(file) {
  return relative(root, file)
    .split(sep)
    .join('/')
    .replace(/^\.cache\/compiled\//, '')
    .replace(/\.test\.mjs$/, '.test.ts');
}
