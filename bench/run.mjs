// Runs every benchmark in this folder, one after another.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const here = fileURLToPath(new URL('.', import.meta.url));
const only = process.argv.slice(2);
for (const name of readdirSync(here).sort()) {
  const script = `${here}${name}/run.mjs`;
  if (!existsSync(script) || (only.length > 0 && !only.includes(name))) continue;
  process.stdout.write(`\n== ${name}\n`);
  spawnSync(process.execPath, [script], { stdio: 'inherit' });
}
