// A night of 230 frames of 26 MP in strips: seconds, memory, and the second run from the cache.
//
//   npm run build && node bench/stars/night.mjs [--frames N]
//
// Sixteen frames are drawn into the system's temporary folder (0.8 GB) and linked under the night's names, so that the
// disk's cache is warm, as after an evening's capture. Threads as the program starts them. On a busy machine the
// processor's seconds say more than the clock's: on two free cores the clock takes half of them.
import { execFileSync } from 'node:child_process';
import { linkSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { bundle } from '../support/bundle.mjs';
import { makeFrame } from './make-frames.mjs';

const DISTINCT = 16;
const GOAL = { seconds: 25, megabytes: 500 };
const here = fileURLToPath(new URL('.', import.meta.url));
const root = fileURLToPath(new URL('../../', import.meta.url));
const { values } = parseArgs({ options: { frames: { type: 'string', default: '230' } } });

const folder = mkdtempSync(join(tmpdir(), 'nightledger-bench-night-'));
try {
  const dist = join(folder, 'js');
  await bundle(dist, ['stars/index.ts']);
  const drawn = Array.from({ length: DISTINCT }, (_, n) => join(folder, `drawn${n}.fits`));
  for (const [n, path] of drawn.entries()) makeFrame(path, n + 1);
  for (const path of drawn) readFileSync(path);
  const frames = join(folder, 'frames');
  mkdirSync(frames);
  for (let n = 0; n < Number(values.frames); n++) linkSync(drawn[n % DISTINCT], join(frames, `light_${n}.fits`));
  for (const run of ['first', 'second']) {
    const answer = execFileSync(process.execPath, [
      join(here, 'measure-night.mjs'),
      dist,
      join(root, 'dist/star-worker.js'),
      frames,
      join(folder, 'cache'),
    ]);
    const { count, seconds, processorSeconds, peakMb } = JSON.parse(answer);
    process.stdout.write(
      `${run} run, ${count} frames of 26 MP in strips: ${seconds.toFixed(1)} s by the clock, ` +
        `${processorSeconds.toFixed(1)} s of processor, ${peakMb} MB at most ` +
        `(goals: ${GOAL.seconds} s on two free cores, ${GOAL.megabytes} MB)\n`,
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
