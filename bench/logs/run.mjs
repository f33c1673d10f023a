// Benchmark of the log readers: whole processes, run in turn, medians.
//
//   npm run build
//   node bench/logs/run.mjs [--lines N] [--runs N] [--dist DIR] [--gigabyte]
//
// The dialect engine is compared with grep and with Python's re, which count the lines that match the same twenty
// patterns; the engine reads stamps and makes events as well. With --gigabyte, a log of 1 GB is read once and the
// peak of memory printed. Files go to the system's temporary folder and are removed at the end.
import { spawnSync } from 'node:child_process';
import { closeSync, existsSync, mkdtempSync, openSync, rmSync, statSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { dialectText, PATTERNS, writeLog } from './make-log.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const { values: options } = parseArgs({
  options: {
    lines: { type: 'string', default: '1000000' },
    runs: { type: 'string', default: '5' },
    dist: { type: 'string', default: join(here, '../../dist') },
    gigabyte: { type: 'boolean', default: false },
  },
});
const dist = resolve(options.dist);
const runs = Number(options.runs);
const lines = Number(options.lines);
if (!existsSync(join(dist, 'gather/dialects/index.js')))
  stop(`${dist} holds no compiled log readers: run \`npm run build\` first, or name the folder with --dist.`);

const work = mkdtempSync(join(tmpdir(), 'nightledger-logs-'));
process.on('exit', () => rmSync(work, { recursive: true, force: true }));

const asWritten = file('as-written.yaml', dialectText());
// A repeated group that may be empty: it changes no match, and no proof admits it to the native engine.
const linearOnly = file('linear-only.yaml', dialectText(PATTERNS.map((pattern) => `${pattern}(?:q?q?)*`)));
const plainPatterns = file(
  'patterns.txt',
  `${PATTERNS.map((pattern) => pattern.replace(/\(\?<\w+>/g, '(')).join('\n')}\n`,
);

for (const share of [0.05, 0.2]) {
  const log = `share-${share}.log`;
  writeLog(join(work, log), lines, share);
  const megabytes = statSync(join(work, log)).size / 1e6;
  console.log(
    `\n${lines} lines (${megabytes.toFixed(0)} MB) × ${PATTERNS.length} patterns, ${share * 100} % of the lines are events`,
  );
  compare([
    ours('dialect', 'dialect', log, asWritten),
    ours('dialect, linear-time engine alone', 'dialect', log, linearOnly),
    anchor('grep -E, byte by byte (LC_ALL=C)', 'grep', ['-cE', '-f', plainPatterns, log], { LC_ALL: 'C' }),
    anchor('grep -E, UTF-8 (LC_ALL=C.UTF-8)', 'grep', ['-cE', '-f', plainPatterns, log], { LC_ALL: 'C.UTF-8' }),
    anchor("Python's re, first match wins", 'python3', [join(here, 'match.py'), log, plainPatterns]),
    anchor('ripgrep -c', 'rg', ['-c', '-f', plainPatterns, log]),
  ]);
  rmSync(join(work, log));
}

console.log('\n100,000 lines of our own event log');
writeEvents('events.jsonl', 100_000);
compare([ours('event log', 'events', 'events.jsonl'), ours('readline and JSON.parse', 'jsonLines', 'events.jsonl')]);

for (const rows of [40_000, 400_000]) {
  console.log(`\n${rows} rows of our own guiding log, the start of Node set aside (goal: ≤ 0.2 of the library)`);
  writeGuiding('guiding.csv', rows);
  compare([ours('guiding log', 'guiding', 'guiding.csv'), ours('papaparse', 'papaparse', 'guiding.csv')], startUp());
}

if (options.gigabyte) {
  console.log('\nA log of 1 GB');
  writeLog(join(work, 'part.log'), 1_000_000, 0.001);
  const size = statSync(join(work, 'part.log')).size;
  spawnSync('sh', ['-c', `for i in $(seq ${Math.ceil(1e9 / size)}); do cat part.log; done > whole.log; rm part.log`], {
    cwd: work,
  });
  const { ms, memory, output } = ours('', 'dialect', 'whole.log', asWritten).run();
  console.log(
    `  ${(statSync(join(work, 'whole.log')).size / 1e9).toFixed(2)} GB: ${output} events in ${(ms / 1000).toFixed(1)} s, peak of memory ${(memory / 1024).toFixed(0)} MB`,
  );
}

/** Runs the contestants in turn and prints medians and the ratio of ours, the first, to each. */
function compare(contestants, setAside = 0) {
  const present = contestants.filter((one) => one.present());
  for (const one of contestants) if (!present.includes(one)) console.log(`  ${one.name}: not installed, left out`);
  const rounds = Array.from({ length: runs }, () => present.map((one) => one.run()));
  const counts = new Set(rounds[0].map((result) => result.output));
  if (counts.size > 1)
    stop(`the programs do not agree: ${present.map((one, i) => `${one.name} ${rounds[0][i].output}`).join(', ')}`);
  const times = present.map((_, i) => median(rounds.map((round) => round[i].ms)) - setAside);
  present.forEach((one, i) => {
    const memory = rounds[0][i].memory === undefined ? '' : `, ${(rounds[0][i].memory / 1024).toFixed(0)} MB`;
    const ratio = i === 0 ? '' : `   ours is ${(times[0] / times[i]).toFixed(2)} of it`;
    console.log(`  ${one.name.padEnd(36)} ${times[i].toFixed(0).padStart(6)} ms${memory.padEnd(9)}${ratio}`);
  });
}

function ours(name, kind, log, dialect) {
  const args = [
    join(here, 'read.mjs'),
    pathToFileURL(dist).href,
    kind,
    work,
    log,
    ...(dialect === undefined ? [] : [dialect]),
  ];
  return {
    name,
    present: () => true,
    run: () => {
      const { ms, stdout } = timed(process.execPath, args, {});
      const [count, memory] = stdout.trim().split(' ');
      return { ms, output: count, memory: Number(memory) };
    },
  };
}

function anchor(name, command, args, environment = {}) {
  return {
    name,
    present: () => spawnSync(command, ['--version']).status === 0,
    run: () => {
      const { ms, stdout } = timed(command, args, environment);
      return { ms, output: stdout.trim() };
    },
  };
}

/** What starting Node costs, ms. */
function startUp() {
  return median(Array.from({ length: runs }, () => timed(process.execPath, ['-e', '0'], {}).ms));
}

function timed(command, args, environment) {
  const begin = performance.now();
  const { status, stdout, stderr } = spawnSync(command, args, {
    cwd: work,
    encoding: 'utf8',
    env: { ...process.env, ...environment },
  });
  const ms = performance.now() - begin;
  if (status !== 0) stop(`${command} failed:\n${stderr}`);
  return { ms, stdout };
}

function median(numbers) {
  const sorted = numbers.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

function file(name, content) {
  const path = join(work, name);
  writeFileSync(path, content);
  return path;
}

function writeEvents(name, count) {
  const kinds = [
    { event: 'exposure-begin', filter: 'Ha', seconds: 300, target: 'NGC 281' },
    { event: 'exposure-end' },
    { event: 'frame-saved', file: 'frames/heron/NGC281_Ha_0001.fits' },
    { event: 'dither-ready' },
    { event: 'dither-begin', pixels: 3.5 },
    { event: 'dither-end' },
    { event: 'settling-begin' },
    { event: 'settling-end', ok: true },
  ];
  const begin = Date.UTC(2026, 9, 14, 19);
  file(
    name,
    Array.from(
      { length: count },
      (_, i) => `${JSON.stringify({ at: new Date(begin + i * 250).toISOString(), ...kinds[i % kinds.length] })}\n`,
    ).join(''),
  );
}

function writeGuiding(name, count) {
  const begin = Date.UTC(2026, 9, 14, 19);
  const out = openSync(join(work, name), 'w');
  writeSync(out, 'at,ra_arcsec,dec_arcsec,snr\n');
  writeSync(
    out,
    Array.from(
      { length: count },
      (_, i) =>
        `${new Date(begin + i * 1000).toISOString()},${(Math.sin(i) * 0.8).toFixed(3)},${(Math.cos(i) * 0.7).toFixed(3)},${(20 + Math.sin(i / 100) * 5).toFixed(1)}\n`,
    ).join(''),
  );
  closeSync(out);
}

function stop(message) {
  console.error(message);
  process.exit(1);
}
