// Benchmark of many nights: whole processes, medians, with their peak memory.
//
//   npm run build
//   node bench/archive/run.mjs [--nights N] [--frames N] [--files N] [--runs N] [--dist DIR]
//
// 1. progress over an archive of plain JSON records, page and JSON; then the PDF too
// 2. archive add over a tree of FITS files: all new, and again with nothing new
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { makeArchive } from './make-archive.mjs';
import { makeFrames } from './make-frames.mjs';

const GOAL_SECONDS = 3;
const GOAL_MB = 500;

const here = dirname(fileURLToPath(import.meta.url));
const { values: options } = parseArgs({
  options: {
    nights: { type: 'string', default: '1000' },
    frames: { type: 'string', default: '300' },
    files: { type: 'string', default: '20000' },
    runs: { type: 'string', default: '3' },
    dist: { type: 'string', default: join(here, '../../dist') },
  },
});
const cli = resolve(options.dist, 'cli.js');
if (!existsSync(cli)) {
  console.error(`${cli} is missing: run \`npm run build\` first, or name the folder with --dist.`);
  process.exit(1);
}
const folder = mkdtempSync(join(tmpdir(), 'nightledger-bench-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

const archive = join(folder, 'archive');
makeArchive(archive, Number(options.nights), Number(options.frames));
const page = measure(['progress', archive, '--out', join(folder, 'out'), '--no-pdf', '--quiet']);
const met = page.ms <= GOAL_SECONDS * 1000 && page.mb <= GOAL_MB;
console.log(
  `progress of ${options.nights} nights × ${options.frames} frames: ${seconds(page)}, ${page.mb.toFixed(0)} MB  goal ≤ ${GOAL_SECONDS} s, ≤ ${GOAL_MB} MB: ${met ? 'met' : 'MISSED'}`,
);
const paper = measure(['progress', archive, '--out', join(folder, 'out'), '--quiet'], 1);
console.log(`the same with the PDF: ${seconds(paper)}, ${paper.mb.toFixed(0)} MB in our process`);

const tree = join(folder, 'tree');
makeFrames(tree, Number(options.files));
const add = ['archive', 'add', tree, '--archive', join(folder, 'imported'), '--quiet'];
const first = measure(add, 1);
console.log(`archive add of ${options.files} files, all new: ${seconds(first)}, ${first.mb.toFixed(0)} MB`);
const again = measure(add);
console.log(`again, nothing new: ${seconds(again)}, ${again.mb.toFixed(0)} MB`);

/** Median times and largest peak memory of whole runs. */
function measure(args, runs = Number(options.runs)) {
  const results = Array.from({ length: runs }, () => {
    const begin = performance.now();
    const { status, stdout, stderr } = spawnSync(process.execPath, [join(here, 'peak-memory.mjs'), cli, ...args], {
      encoding: 'utf8',
    });
    const ms = performance.now() - begin;
    if (status !== 0) throw new Error(stderr);
    const [, peak, cpu] = /peak (\d+) cpu ([\d.]+)/.exec(stdout) ?? [];
    return { ms, mb: Number(peak) / 1000, cpu: Number(cpu) };
  });
  const median = (values) => values.sort((a, b) => a - b)[Math.floor(runs / 2)];
  return {
    ms: median(results.map((r) => r.ms)),
    cpu: median(results.map((r) => r.cpu)),
    mb: Math.max(...results.map((r) => r.mb)),
  };
}

function seconds({ ms, cpu }) {
  return `${(ms / 1000).toFixed(2)} s (processor ${cpu.toFixed(2)} s)`;
}
