// The tests: what they need is set up, then format and lint, the type check and the tests themselves run side by side.
// `npm test -- tests/sky` runs only the test files whose path holds that. Ends with one line that says how it went.
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { compiled, sourceOf } from './compiled-run.mjs';
import { ONE_THREAD, RARELY_COLLECTED, SMALL_PAGES } from './engine.mjs';
import { digestOfProject, unlessPassed } from './passed-before.mjs';
import { prepare, root } from './prepare.mjs';
import { countedOf } from './tests-counted.mjs';

// The program is compiled beside the tests (vitest.compiled.config.ts).
prepare({ forTests: true, withProgram: false });

const cache = join(root, '.cache');
const reportFile = join(cache, 'tests.json');
mkdirSync(cache, { recursive: true });
rmSync(reportFile, { force: true });

const bin = (path) => join(root, 'node_modules', path);

// Node reads all certificates of this file at each start, three times as long as the start takes without. No test asks
// anything of the network; what may (npm, in the test of the package) is given the file back.
const { NODE_EXTRA_CA_CERTS, ...env } = process.env;
if (NODE_EXTRA_CA_CERTS !== undefined) env.CERTIFICATES_OF_NPM = NODE_EXTRA_CA_CERTS;

/** Runs a script of a package with Node; what it prints comes out at once, or in one piece at its end. */
function node(script, args, { live = false, besides = {} } = {}) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [bin(script), ...args], {
      cwd: root,
      env: { ...env, ...besides },
      stdio: ['ignore', live ? 'inherit' : 'pipe', live ? 'inherit' : 'pipe'],
    });
    const said = [];
    child.stdout?.on('data', (text) => said.push(text));
    child.stderr?.on('data', (text) => said.push(text));
    child.on('error', (error) => resolve({ passed: false, output: String(error) }));
    child.on('close', (status) => resolve({ passed: status === 0, output: Buffer.concat(said).toString('utf8') }));
  });
}

const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${reportFile}`];
// The longest first: a digest of the whole project, which the check of the style begins with, keeps this process busy.
const [tests, types, style] = await Promise.all([
  node('vitest/vitest.mjs', compiled(...reporters, ...process.argv.slice(2)), {
    live: true,
    besides: SMALL_PAGES,
  }),
  // One thread: several take twice the processor's time, which the tests need.
  node('typescript/bin/tsc', ['-p', 'tsconfig.test.json', '--singleThreaded'], { besides: RARELY_COLLECTED }),
  unlessPassed(
    join(cache, 'style'),
    () => digestOfProject(root),
    () => node('@biomejs/biome/bin/biome', ['check', '--error-on-warnings'], { besides: ONE_THREAD }),
  ),
]);

for (const [name, { passed, output }] of [
  ['format and lint', style],
  ['types', types],
]) {
  if (!passed) console.log(`\n${output.trim()}\n${name}: failed`);
}

/** The runner's report; null where the tests did not come as far as that. */
function reported() {
  try {
    return JSON.parse(readFileSync(reportFile, 'utf8'));
  } catch {
    return null;
  }
}

const report = reported();
const result = report && countedOf(report);
if (result && result.skipped.length > 0) {
  console.log('\nskipped on this machine:');
  for (const test of result.skipped) console.log(`  ${test}`);
}
const didNotRun = result?.didNotRun ?? [];
for (const { file, tests: left } of didNotRun) {
  console.log(`\ndid not run: ${sourceOf(file)}${left.length === 0 ? '' : ', namely'}`);
  for (const test of left) console.log(`  ${test}`);
}
const failed = [
  ...(style.passed ? [] : ['format and lint']),
  ...(types.passed ? [] : ['types']),
  ...(result ? [] : ['the run of the tests']),
  ...new Set([...(result?.broken ?? []), ...didNotRun.map(({ file }) => file)].map(sourceOf)),
];
const also = failed.length > 0 ? `; failed besides: ${failed.join(', ')}` : '; format, lint and types are right';
const counts = [
  `${result?.passed ?? 0} passed`,
  `${result?.failed ?? 0} failed`,
  ...(result && result.skipped.length > 0 ? [`${result.skipped.length} skipped`] : []),
  ...(didNotRun.length > 0
    ? [didNotRun.length === 1 ? '1 file did not run' : `${didNotRun.length} files did not run`]
    : []),
];
console.log(`\n${counts.join(', ')}${also}`);
process.exit(tests.passed && failed.length === 0 ? 0 : 1);
