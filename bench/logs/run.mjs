// Benchmark of the log readers: whole processes, run in turn, medians.
//
//   node bench/logs/run.mjs [--lines N] [--rows N] [--runs N] [--cold-runs N] [--share S …] [--others] [--gigabyte]
//
// The dialect engine is compared with ripgrep, and with --others also with grep and Python's re, which count the lines
// that match the same twenty patterns; the engine reads stamps and makes events as well. With --gigabyte, a log of 1 GB
// is read once and the peak of memory printed. Files go to the system's temporary folder and are removed at the end.
import { spawnSync } from 'node:child_process';
import { rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { bundle } from '../support/bundle.mjs';
import { goal } from '../support/goal.mjs';
import { inTurn, median, nodeAlone, ratioOf, stop, timed, workFolder } from '../support/measure.mjs';
import { dialectText, PATTERNS, writeEvents, writeGuiding, writeLog } from './make-log.mjs';

/** Of ripgrep's time, whole processes; of the library's time, the start of Node set aside. */
const GOALS = { ripgrep: 2.3, guiding: 0.2 };
const here = dirname(fileURLToPath(import.meta.url));
const { values: options } = parseArgs({
  options: {
    lines: { type: 'string', default: '1000000' },
    rows: { type: 'string', default: '400000' },
    runs: { type: 'string', default: '3' },
    'cold-runs': { type: 'string' },
    share: { type: 'string', multiple: true, default: ['0.05', '0.2'] },
    others: { type: 'boolean', default: false },
    gigabyte: { type: 'boolean', default: false },
  },
});
const runs = Number(options.runs);
const lines = Number(options.lines);
const work = workFolder('logs');
const js = join(work, 'js');
await bundle(
  js,
  ['gather/dialects/reading.ts', 'gather/event-log/index.ts', 'gather/guiding-log/index.ts'],
  ['gather/lines/digest-worker.ts'],
);

const asWritten = file('as-written.yaml', dialectText());
// A repeated group that may be empty: it changes no match, and no proof admits it to the native engine.
const linearOnly = file('linear-only.yaml', dialectText(PATTERNS.map((pattern) => `${pattern}(?:q?q?)*`)));
const plainPatterns = file(
  'patterns.txt',
  `${PATTERNS.map((pattern) => pattern.replace(/\(\?<\w+>/g, '(')).join('\n')}\n`,
);

for (const share of options.share.map(Number)) {
  const log = `share-${share}.log`;
  writeLog(join(work, log), lines, share);
  const megabytes = statSync(join(work, log)).size / 1e6;
  console.log(
    `\n${lines} lines (${megabytes.toFixed(0)} MB) × ${PATTERNS.length} patterns, ${share * 100} % of the lines are events`,
  );
  const others = [
    anchor('grep -E, byte by byte (LC_ALL=C)', 'grep', ['-cE', '-f', plainPatterns, log], { LC_ALL: 'C' }),
    anchor('grep -E, UTF-8 (LC_ALL=C.UTF-8)', 'grep', ['-cE', '-f', plainPatterns, log], { LC_ALL: 'C.UTF-8' }),
    anchor("Python's re, first match wins", 'python3', [join(here, 'match.py'), log, plainPatterns]),
  ];
  const times = compare([
    ours('dialect', 'dialect', log, asWritten),
    ours('dialect, linear-time engine alone', 'dialect', log, linearOnly),
    anchor('ripgrep -c', 'rg', ['-c', '-f', plainPatterns, log]),
    ...(options.others ? others : []),
  ]);
  const what = `${lines} log lines × ${PATTERNS.length} patterns, ${share * 100} % events`;
  const ripgrep = times.get('ripgrep -c');
  for (const [engine, name] of [
    ['dialect', what],
    ['dialect, linear-time engine alone', `${what}, linear-time engine alone`],
  ]) {
    if (ripgrep === undefined) goal(name, null, GOALS.ripgrep, '× ripgrep -c, which is not installed');
    else goal(name, ratioOf(times.get(engine), ripgrep), GOALS.ripgrep, '× ripgrep -c');
  }
  rmSync(join(work, log));
}

console.log(`\n${lines / 10} lines of our own event log`);
writeEvents(join(work, 'events.jsonl'), lines / 10);
compare([ours('event log', 'events', 'events.jsonl'), ours('readline and JSON.parse', 'jsonLines', 'events.jsonl')]);

for (const rows of [Number(options.rows) / 10, Number(options.rows)]) {
  console.log(`\n${rows} rows of our own guiding log, the start of Node set aside`);
  writeGuiding(join(work, 'guiding.csv'), rows);
  // Cold processes are short, so that more of them are needed than of long ones.
  const cold = Number(options['cold-runs'] ?? 3 * runs);
  const times = compare(
    [ours('guiding log', 'guiding', 'guiding.csv'), ours('papaparse', 'papaparse', 'guiding.csv')],
    { times: cold, setAside: inTurn(cold, [nodeAlone])[0] },
  );
  const ratio = ratioOf(times.get('guiding log'), times.get('papaparse'));
  goal(`${rows} guiding rows, cold`, ratio, GOALS.guiding, '× papaparse');
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

/** Runs the contestants in turn and prints medians. @returns them by name; without those that are not installed */
function compare(contestants, { times = runs, setAside = { ms: 0, processorMs: 0 } } = {}) {
  const present = contestants.filter((one) => one.present());
  for (const one of contestants) if (!present.includes(one)) console.log(`  ${one.name}: not installed, left out`);
  // Caches are warm then, and compiled code is kept as after the program's first run.
  for (const one of present) one.run();
  const rounds = Array.from({ length: times }, () => present.map((one) => one.run()));
  const counts = new Set(rounds[0].map((result) => result.output));
  if (counts.size > 1)
    stop(`the programs do not agree: ${present.map((one, i) => `${one.name} ${rounds[0][i].output}`).join(', ')}`);
  const of = (i, key, together) => together(rounds.map((round) => round[i][key])) - setAside[key];
  const mean = (numbers) => numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
  const results = present.map((_, i) => ({ ms: of(i, 'ms', median), processorMs: of(i, 'processorMs', mean) }));
  present.forEach((one, i) => {
    const memory = rounds[0][i].memory === undefined ? '' : `, ${(rounds[0][i].memory / 1024).toFixed(0)} MB`;
    console.log(`  ${one.name.padEnd(36)} ${results[i].ms.toFixed(0).padStart(6)} ms${memory}`);
  });
  return new Map(present.map((one, i) => [one.name, results[i]]));
}

function ours(name, kind, log, dialect) {
  const args = [join(here, 'read.cjs'), js, kind, work, log, ...(dialect === undefined ? [] : [dialect])];
  return {
    name,
    present: () => true,
    run: () => {
      const { ms, processorMs, stdout } = timed(process.execPath, args, { cwd: work });
      const [count, memory] = stdout.trim().split(' ');
      return { ms, processorMs, output: count, memory: Number(memory) };
    },
  };
}

function anchor(name, command, args, environment = {}) {
  return {
    name,
    present: () => spawnSync(command, ['--version']).status === 0,
    run: () => {
      const { ms, processorMs, stdout } = timed(command, args, { cwd: work, env: environment });
      return { ms, processorMs, output: stdout.trim() };
    },
  };
}

function file(name, content) {
  const path = join(work, name);
  writeFileSync(path, content);
  return path;
}
