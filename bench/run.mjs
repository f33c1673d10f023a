// Runs every benchmark in this folder, one after another, and ends with a table of all goals.
//
//   npm run bench                                all of them: some quarter of an hour on a machine that does nothing else
//   npm run bench -- --only headers --only night only these
//   npm run bench -- --only start --runs 5       handed on to a benchmark that takes it
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { tableOf, writingTo } from './support/goal.mjs';
import { stop, workFolder } from './support/measure.mjs';

const here = fileURLToPath(new URL('.', import.meta.url));
const { values, positionals } = parseArgs({
  options: { only: { type: 'string', multiple: true, default: [] }, runs: { type: 'string' } },
  allowPositionals: true,
});
const all = readdirSync(here)
  .sort()
  .filter((name) => existsSync(`${here}${name}/run.mjs`));
const only = [...values.only, ...positionals];
const unknown = only.filter((name) => !all.includes(name));
if (unknown.length > 0) stop(`there is no benchmark ${unknown.join(', ')}; there are ${all.join(', ')}`);

const results = join(workFolder('run'), 'results.jsonl');
writeFileSync(results, '');
const more = values.runs === undefined ? [] : ['--runs', values.runs];
const failed = [];
for (const name of all) {
  if (only.length > 0 && !only.includes(name)) continue;
  process.stdout.write(`\n== ${name}\n`);
  const begin = performance.now();
  const { status } = spawnSync(process.execPath, [join(here, name, 'run.mjs'), ...more], {
    stdio: 'inherit',
    env: { ...process.env, ...writingTo(results) },
  });
  process.stdout.write(`(${((performance.now() - begin) / 1000).toFixed(0)} s)\n`);
  if (status !== 0) failed.push(name);
}
process.stdout.write(`\n== all goals\n${tableOf(results)}\n`);
if (failed.length > 0) {
  process.stdout.write(`did not run to the end: ${failed.join(', ')}\n`);
  process.exitCode = 1;
}
