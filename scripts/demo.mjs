// Makes the report of a sample night in out/demo, that of a short night with stars in its pixels in out/demo-stars, and
// the progress of a sample autumn in out/demo-progress: HTML, PDF
// and JSON of each. Further arguments, such as --no-pdf, go to both.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const more = process.argv.slice(2);

function nightledger(...args) {
  const { status } = spawnSync(process.execPath, ['dist/cli.js', ...args, ...more], { cwd: root, stdio: 'inherit' });
  if (status !== 0) process.exit(status ?? 1);
}

nightledger('report', 'sample-sessions/twin-night', '--out', 'out/demo');
nightledger('report', 'sample-sessions/star-night', '--out', 'out/demo-stars');
nightledger('progress', 'sample-sessions/autumn-archive', '--out', 'out/demo-progress');
