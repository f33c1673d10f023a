// Benchmark of star measurement against source-extractor: whole processes, run in turn, medians of the ratios of pairs.
// Processor time is compared, so that other work on the machine counts for neither; both use one thread for the pixels.
//
//   node bench/stars/run.mjs [--frames N] [--runs N]
//
// Needs source-extractor (Debian: apt-get install source-extractor). Frames of 26 MP go to the system's temporary folder
// and are removed at the end; they are read once before, so that the disk's cache is warm.
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { bundle } from '../support/bundle.mjs';
import { goal } from '../support/goal.mjs';
import { childProcessorMs, median } from '../support/measure.mjs';
import { makeFrame } from './make-frames.mjs';

/** Processor time by that of source-extractor for the same frames. */
const GOALS = { full: 0.25, strips: 0.08 };
const here = fileURLToPath(new URL('.', import.meta.url));
const { values } = parseArgs({
  options: {
    frames: { type: 'string', default: '16' },
    runs: { type: 'string', default: '3' },
  },
});
const count = Number(values.frames);
const runs = Number(values.runs);
const what = (by) => `stars in ${count} frames of 26 MP, ${by}, processor time`;
if (spawnSync('source-extractor', ['--version']).error !== undefined) {
  for (const [by, most] of Object.entries(GOALS))
    goal(what(by), null, most, '× source-extractor, which is not installed');
  process.exit(0);
}

const folder = mkdtempSync(join(tmpdir(), 'nightledger-bench-stars-'));
try {
  const dist = join(folder, 'js');
  await bundle(dist, ['stars/index.ts']);
  const made = [0, 1].map((n) => join(folder, `frame${n}.fits`));
  for (const [n, path] of made.entries()) makeFrame(path, n + 1);
  for (const path of made) readFileSync(path);
  const files = Array.from({ length: count }, (_, n) => made[n % made.length]);
  writeFileSync(
    join(folder, 'columns.param'),
    'X_IMAGE\nY_IMAGE\nFLUX_AUTO\nFLUX_RADIUS\nELONGATION\nTHETA_IMAGE\nFLAGS\n',
  );
  const ours = (by) => execFileSync(process.execPath, [join(here, 'measure.cjs'), dist, by, '0', ...files]);
  const anchor = () => {
    for (const file of files) execFileSync('source-extractor', anchorArguments(file));
  };
  const ratios = { full: [], strips: [] };
  for (let run = 0; run < runs; run++) {
    const reference = secondsOf(anchor);
    for (const by of ['full', 'strips']) ratios[by].push(secondsOf(() => ours(by)) / reference);
    process.stdout.write(`source-extractor ${((reference / count) * 1000).toFixed(0)} ms a frame\n`);
  }
  for (const [by, most] of Object.entries(GOALS)) goal(what(by), median(ratios[by]), most, '× source-extractor');
  process.stdout.write(ours('strips').toString());
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function anchorArguments(file) {
  const share = '/usr/share/source-extractor';
  return [
    file,
    '-c',
    `${share}/default.sex`,
    '-PARAMETERS_NAME',
    join(folder, 'columns.param'),
    '-FILTER',
    'Y',
    '-FILTER_NAME',
    `${share}/default.conv`,
    '-STARNNW_NAME',
    `${share}/default.nnw`,
    '-DETECT_THRESH',
    '5',
    '-ANALYSIS_THRESH',
    '5',
    '-CATALOG_NAME',
    join(folder, 'out.cat'),
    '-VERBOSE_TYPE',
    'QUIET',
  ];
}

/** Processor seconds of the child processes that the work starts and waits for. */
function secondsOf(work) {
  const before = childProcessorMs();
  work();
  return (childProcessorMs() - before) / 1000;
}
