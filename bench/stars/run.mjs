// Benchmark of star measurement against source-extractor: whole processes, run in turn, medians of the ratios of pairs.
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
import { makeFrame } from './make-frames.mjs';

const here = fileURLToPath(new URL('.', import.meta.url));
const root = fileURLToPath(new URL('../../', import.meta.url));
const { values } = parseArgs({
  options: {
    frames: { type: 'string', default: '16' },
    runs: { type: 'string', default: '3' },
  },
});
const count = Number(values.frames);
const runs = Number(values.runs);
if (spawnSync('source-extractor', ['--version']).error !== undefined) {
  process.stdout.write('source-extractor is not installed; nothing to compare with.\n');
  process.exit(0);
}

const folder = mkdtempSync(join(tmpdir(), 'nightledger-bench-stars-'));
try {
  // The stage alone, file by file: what the bundle holds besides is not measured here.
  const dist = join(folder, 'js');
  execFileSync(process.execPath, [
    join(root, 'node_modules/typescript/bin/tsc'),
    '--noCheck',
    '--outDir',
    dist,
    '--rootDir',
    join(root, 'src'),
    '--target',
    'ES2022',
    '--module',
    'NodeNext',
    '--verbatimModuleSyntax',
    '--types',
    'node',
    join(root, 'src/stars/index.ts'),
    join(root, 'src/stars/star-worker.ts'),
  ]);
  writeFileSync(join(dist, 'package.json'), '{"type":"module"}');
  const made = [0, 1].map((n) => join(folder, `frame${n}.fits`));
  for (const [n, path] of made.entries()) makeFrame(path, n + 1);
  for (const path of made) readFileSync(path);
  const files = Array.from({ length: count }, (_, n) => made[n % made.length]);
  writeFileSync(
    join(folder, 'columns.param'),
    'X_IMAGE\nY_IMAGE\nFLUX_AUTO\nFLUX_RADIUS\nELONGATION\nTHETA_IMAGE\nFLAGS\n',
  );
  const ours = (by) => execFileSync(process.execPath, [join(here, 'measure.mjs'), dist, by, '0', ...files]);
  const anchor = () => {
    for (const file of files) execFileSync('source-extractor', anchorArguments(file));
  };
  const ratios = { full: [], strips: [] };
  for (let run = 0; run < runs; run++) {
    const reference = secondsOf(anchor);
    for (const by of ['full', 'strips']) ratios[by].push(secondsOf(() => ours(by)) / reference);
    process.stdout.write(`source-extractor ${((reference / count) * 1000).toFixed(0)} ms a frame\n`);
  }
  process.stdout.write(`${count} frames, full:   ${median(ratios.full).toFixed(3)} × source-extractor (goal 0.25)\n`);
  process.stdout.write(`${count} frames, strips: ${median(ratios.strips).toFixed(3)} × source-extractor (goal 0.08)\n`);
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

function secondsOf(work) {
  const start = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - start) / 1e9;
}

function median(numbers) {
  return numbers.sort((a, b) => a - b)[numbers.length >> 1];
}
