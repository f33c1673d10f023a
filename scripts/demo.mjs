// Makes the report of a sample night: HTML, PDF and JSON in out/demo.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const args = ['dist/cli.js', 'report', 'sample-sessions/twin-night', '--out', 'out/demo', ...process.argv.slice(2)];
process.exit(spawnSync(process.execPath, args, { cwd: root, stdio: 'inherit' }).status ?? 1);
