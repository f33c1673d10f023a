// Random and repeated checks that `npm test` makes in a small, fixed number, made in full: for the night, or by hand.
//   npm run thorough
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { compiled } from './compiled-run.mjs';
import { prepare, root } from './prepare.mjs';

/** Read by the tests: `THOROUGH` by all (tests/support/runs.ts), the others by those that count nights and pairs. */
const MANY = { THOROUGH: '1', CLOCK_NIGHTS: '25', UNRELATED_PAIRS: '1000', PRINTED_NIGHTS: '12' };
const COUNTING =
  /support\/(?:runs|star-night|child)\.js'|\bUSUAL_NAMES\b|process\.env\.(?:CLOCK_NIGHTS|UNRELATED_PAIRS)|'\.\/parts\//;

/** A property in full takes its minutes, many on a busy machine. */
const PATIENCE = ['--testTimeout=1800000', '--hookTimeout=1800000'];

/** The test files in which anything is counted so. */
const files = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.test.ts'))
  .map((path) => join('tests', path))
  .filter((path) => COUNTING.test(readFileSync(join(root, path), 'utf8')));

prepare({ forTests: true });
const vitest = join(root, 'node_modules/vitest/vitest.mjs');
const { status } = spawnSync(process.execPath, [vitest, ...compiled(...PATIENCE, ...files, ...process.argv.slice(2))], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, ...MANY },
});
process.exit(status ?? 1);
