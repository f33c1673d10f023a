// How the compiled tests are run (vitest.compiled.config.ts).
import { join } from 'node:path';
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
