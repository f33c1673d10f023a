// A night's report (HTML and JSON) as a whole process: wall time and peak memory, at two sizes, to see how cost grows.
// Goals: 300 frames with 100,000 log lines in under 2 s and 300 MB; cost linear up to 20,000 frames.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { makeNight } from './make-night.mjs';

const here = fileURLToPath(new URL('.', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'nightledger-bench-'));
const runs = Number(process.env.RUNS ?? 5);
const sizes = [
  { name: 'a normal night', seconds: 240, hours: 10.5, lines: 100_000 },
  { name: 'many short subs', seconds: 10, hours: 11, lines: 100_000 },
  { name: 'very many subs', seconds: 1, hours: 11, lines: 200_000 },
];

function once(args) {
  const begin = process.hrtime.bigint();
  const child = spawnSync(process.execPath, [join(here, 'measured-cli.mjs'), ...args], { encoding: 'utf8' });
  if (child.status !== 0) throw new Error(child.stderr);
  return {
    seconds: Number(process.hrtime.bigint() - begin) / 1e9,
    megabytes: Number(/peak-kb (\d+)/.exec(child.stderr)[1]) / 1024,
  };
}
const median = (values) => [...values].sort((a, b) => a - b)[values.length >> 1];

try {
  for (const [i, size] of sizes.entries()) {
    const session = join(folder, String(i));
    const made = await makeNight(session, size);
    const args = ['report', session, '--out', join(folder, `out-${i}`), '--no-pdf', '--quiet'];
    once(args);
    const results = Array.from({ length: runs }, () => once(args));
    const seconds = median(results.map((r) => r.seconds));
    process.stdout.write(
      `${size.name}: ${made.frames} frames, ${made.lines} log lines: ${seconds.toFixed(2)} s (median of ${runs}), ${((1000 * seconds) / made.frames).toFixed(2)} ms a frame, peak ${median(results.map((r) => r.megabytes)).toFixed(0)} MB\n`,
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
