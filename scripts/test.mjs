// The tests: what they need is set up, then format and lint, the type check and the tests themselves run side by side.
// `npm test -- tests/sky` runs only the test files whose path holds that. Ends with one line that says how it went.
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { compiled } from './compiled-run.mjs';
import { prepare, root } from './prepare.mjs';

// The program is compiled by the tests' own set-up, while the type check has the other core.
prepare({ forTests: true, withProgram: false });

const cache = join(root, '.cache');
const counts = join(cache, 'tests.json');
mkdirSync(cache, { recursive: true });
rmSync(counts, { force: true });

const bin = (path) => join(root, 'node_modules', path);

/** Runs a script of a package with Node; what it prints comes out at once, or in one piece at its end. */
function node(script, args, { live = false } = {}) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [bin(script), ...args], {
      cwd: root,
      stdio: ['ignore', live ? 'inherit' : 'pipe', live ? 'inherit' : 'pipe'],
    });
    const said = [];
    child.stdout?.on('data', (text) => said.push(text));
    child.stderr?.on('data', (text) => said.push(text));
    child.on('error', (error) => resolve({ passed: false, output: String(error) }));
    child.on('close', (status) => resolve({ passed: status === 0, output: Buffer.concat(said).toString('utf8') }));
  });
}

const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${counts}`];
const [style, types, tests] = await Promise.all([
  node('@biomejs/biome/bin/biome', ['check', '--error-on-warnings']),
  // One thread: several take twice the processor's time, which the tests need.
  node('typescript/bin/tsc', ['-p', 'tsconfig.test.json', '--singleThreaded']),
  node('vitest/vitest.mjs', compiled(...reporters, ...process.argv.slice(2)), { live: true }),
]);

for (const [name, { passed, output }] of [
  ['format and lint', style],
  ['types', types],
]) {
  if (!passed) console.log(`\n${output.trim()}\n${name}: failed`);
}

/** The tests counted; null where they did not come as far as that. */
function counted() {
  try {
    return JSON.parse(readFileSync(counts, 'utf8'));
  } catch {
    return null;
  }
}

const result = counted();
const brokenFiles = result
  ? result.testResults.filter((f) => f.status === 'failed' && !f.assertionResults.some((t) => t.status === 'failed'))
  : [];
const skipped = result
  ? result.testResults.flatMap((f) =>
      f.assertionResults.filter((t) => t.status === 'pending' || t.status === 'skipped'),
    )
  : [];
if (skipped.length > 0) {
  console.log('\nskipped on this machine:');
  for (const test of skipped) console.log(`  ${test.fullName}`);
}
const failed = [
  ...(style.passed ? [] : ['format and lint']),
  ...(types.passed ? [] : ['types']),
  ...(result ? [] : ['the run of the tests']),
  ...brokenFiles.map((file) => file.name),
];
const also = failed.length > 0 ? `; failed besides: ${failed.join(', ')}` : '; format, lint and types are right';
const left = skipped.length > 0 ? `, ${skipped.length} skipped` : '';
console.log(`\n${result?.numPassedTests ?? 0} passed, ${result?.numFailedTests ?? 0} failed${left}${also}`);
process.exit(tests.passed && failed.length === 0 ? 0 : 1);
