// Benchmark of many nights: whole processes, medians against Node that does nothing, with their peak memory.
//
//   npm run build
//   node bench/archive/run.mjs [--runs N] [--frames N] [--files N]
//
// 1. progress over a thousand records, page and JSON, for the first time, with what each comes to kept beside it, and
//    without, as earlier programs left them; again, when all that is remembered; then the PDF too
// 2. the same over five times as many: the time of a night may not grow
// 3. archive add over a tree of FITS files: all new, and again with nothing new
import { renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { goal } from '../support/goal.mjs';
import { demandProgram, inTurn, nodeAlone, peakMegabytes, program, ratioOf, workFolder } from '../support/measure.mjs';
import { makeArchive } from './make-archive.mjs';
import { makeFrames } from './make-frames.mjs';

const { values: options } = parseArgs({
  options: {
    runs: { type: 'string', default: '3' },
    frames: { type: 'string', default: '300' },
    files: { type: 'string', default: '20000' },
  },
});
const FEW = 1000;
const MANY = 5000;
/** How much longer five times the nights may take: five times, and a tenth for the noise. */
const LINEAR = 1.1 * (MANY / FEW);

demandProgram();
const folder = workFolder('archive');
const runs = Number(options.runs);
const progress = (nights, ...more) => [
  'progress',
  join(folder, `nights-${nights}`),
  '--out',
  join(folder, `out-${nights}`),
  '--quiet',
  ...more,
];
// Sums are remembered in a cache folder: one of our own, which may be emptied.
const cache = join(folder, 'cache');
process.env.XDG_CACHE_HOME = cache;
const forgetting = (run) => () => {
  rmSync(cache, { recursive: true, force: true });
  return run();
};
for (const nights of [FEW, MANY]) await makeArchive(join(folder, `nights-${nights}`), nights, Number(options.frames));

const run = () => program(...progress(FEW, '--no-pdf'));
const what = `progress of ${FEW} nights of ${options.frames} frames, page and JSON`;
const [first, node] = inTurn(runs, [forgetting(run), nodeAlone]);
goal(`${what}, for the first time`, ratioOf(first, node), 25, '× node -e 0');
const sums = join(folder, `nights-${FEW}/.index`);
renameSync(sums, `${sums}-away`);
const [bare, without] = inTurn(runs, [forgetting(run), nodeAlone]);
renameSync(`${sums}-away`, sums);
goal('the same of records without their sums beside them', ratioOf(bare, without), 25, '× node -e 0');
const [again, once] = inTurn(runs, [run, nodeAlone]);
goal(`${what}, again`, ratioOf(again, once), 25, '× node -e 0');
const [paper, more] = inTurn(1, [() => program(...progress(FEW)), nodeAlone]);
goal('the same with the PDF', ratioOf(paper, more), 60, '× node -e 0');
const begin = performance.now();
const megabytes = peakMegabytes(...progress(MANY, '--no-pdf'));
goal(`progress of ${MANY} nights, first`, (performance.now() - begin) / first.ms, LINEAR, `× that of ${FEW}`);
goal('its memory', megabytes, 1000, 'MB');

const tree = join(folder, 'tree');
makeFrames(tree, Number(options.files));
const add = ['archive', 'add', tree, '--archive', join(folder, 'imported'), '--quiet'];
const seconds = ({ ms }) => `${(ms / 1000).toFixed(2)} s`;
console.log(`archive add of ${options.files} files, all new: ${seconds(program(...add))}`);
console.log(`again, nothing new: ${seconds(program(...add))}`);
