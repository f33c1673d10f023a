// Compiles src/ to dist/. One step, no bundler: Node reads the result as it is. With --no-check the types are not
// checked: for tests, which check them by themselves.
import { spawnSync } from 'node:child_process';
import { chmodSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const unchecked = process.argv.includes('--no-check') ? ['--noCheck'] : [];
rmSync(`${root}/dist`, { recursive: true, force: true });
const tsc = spawnSync(process.execPath, [`${root}/node_modules/typescript/bin/tsc`, '-p', root, ...unchecked], {
  stdio: 'inherit',
});
if (tsc.status !== 0) process.exit(tsc.status ?? 1);
chmodSync(`${root}/dist/cli.js`, 0o755);
