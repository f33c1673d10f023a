// Random checks that `npm test` makes in a small, fixed number, made in a large one: for the night, or by hand.
//   npm run thorough
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { prepare, root } from './prepare.mjs';

/** How many of each; the variables are read by the tests of the same subject. */
const MANY = { CLOCK_NIGHTS: '25', UNRELATED_PAIRS: '1000' };
const FILES = ['tests/sessions/wrong-clocks.test.ts', 'tests/stars/registration/unrelated.test.ts'];

prepare({ forTests: true });
const { status } = spawnSync(process.execPath, [join(root, 'node_modules/vitest/vitest.mjs'), 'run', ...FILES], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, ...MANY },
});
process.exit(status ?? 1);
