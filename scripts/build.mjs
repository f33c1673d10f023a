// Compiles src/ to dist/. One step, no bundler: Node reads the result as it is.
import { spawnSync } from 'node:child_process';
import { chmodSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
rmSync(`${root}/dist`, { recursive: true, force: true });
const tsc = spawnSync(process.execPath, [`${root}/node_modules/typescript/bin/tsc`, '-p', root], { stdio: 'inherit' });
if (tsc.status !== 0) process.exit(tsc.status ?? 1);
chmodSync(`${root}/dist/cli.js`, 0o755);
