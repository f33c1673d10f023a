// Runs every benchmark in this folder, one after another, and ends with a table of all goals.
// `npm run bench -- headers night` runs only those two.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { tableOf, writingTo } from './support/goal.mjs';
import { workFolder } from './support/measure.mjs';

const here = fileURLToPath(new URL('.', import.meta.url));
const only = process.argv.slice(2);
const results = join(workFolder('run'), 'results.jsonl');
writeFileSync(results, '');
const failed = [];
for (const name of readdirSync(here).sort()) {
  const script = `${here}${name}/run.mjs`;
  if (!existsSync(script) || (only.length > 0 && !only.includes(name))) continue;
  process.stdout.write(`\n== ${name}\n`);
  const { status } = spawnSync(process.execPath, [script], {
    stdio: 'inherit',
    env: { ...process.env, ...writingTo(results) },
  });
  if (status !== 0) failed.push(name);
}
process.stdout.write(`\n== all goals\n${tableOf(results)}\n`);
if (failed.length > 0) {
  process.stdout.write(`did not run to the end: ${failed.join(', ')}\n`);
  process.exitCode = 1;
}
