// Benchmark of Moon and target places against astropy (astropy_anchor.py): whole processes, run in turn, medians.
//
//   npm run build
//   node bench/sky/run.mjs [--instants N] [--runs N] [--dist DIR] [--python PROGRAM]
//
// Needs a Python with astropy (Debian: apt-get install python3-astropy); without one, our own time is printed alone.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const GOAL = 0.1;

const here = dirname(fileURLToPath(import.meta.url));
const { values: options } = parseArgs({
  options: {
    instants: { type: 'string', default: '2000' },
    runs: { type: 'string', default: '5' },
    dist: { type: 'string', default: join(here, '../../dist') },
    python: { type: 'string', default: 'python3' },
  },
});
const dist = resolve(options.dist);
if (!existsSync(join(dist, 'sky/index.js')))
  stop(`${dist} holds no compiled sky stage: run \`npm run build\` first, or name the folder with --dist.`);

const ours = () => run(process.execPath, [join(here, 'place.mjs'), dist, options.instants]);
const theirs = () => run(options.python, [join(here, 'astropy_anchor.py'), options.instants]);
const what = `Moon and target at ${options.instants} instants`;

if (spawnSync(options.python, ['-c', 'import astropy']).status === 0) {
  // The first pair warms the caches and shows that both compute the same sky.
  const first = [ours(), theirs()];
  if (first[0].output !== first[1].output)
    stop(`the two programs see different skies:\n  nightledger: ${first[0].output}  astropy:     ${first[1].output}`);
  const pairs = Array.from({ length: Number(options.runs) }, () => [ours().ms, theirs().ms]);
  const [mine, other] = [0, 1].map((side) => median(pairs.map((pair) => pair[side])));
  const ratio = mine / other;
  console.log(
    `${what}: ${mine.toFixed(0)} ms, astropy ${other.toFixed(0)} ms, ratio ${ratio.toFixed(3)}  goal ≤ ${GOAL}: ${ratio <= GOAL ? 'met' : 'MISSED'}`,
  );
} else {
  ours();
  const mine = median(Array.from({ length: Number(options.runs) }, () => ours().ms));
  console.log(`${what}: ${mine.toFixed(0)} ms; no ratio, ${options.python} has no astropy`);
}

function run(command, args) {
  const begin = performance.now();
  const { status, stdout, stderr } = spawnSync(command, args, { encoding: 'utf8' });
  const ms = performance.now() - begin;
  if (status !== 0) stop(`${command} failed:\n${stderr}`);
  return { ms, output: stdout };
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

function stop(message) {
  console.error(message);
  process.exit(1);
}
