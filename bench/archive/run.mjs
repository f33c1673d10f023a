// Benchmark of many nights: whole processes, medians against Node that does nothing, with their peak memory.
//
//   npm run build
//   node bench/archive/run.mjs [--runs N] [--frames N] [--files N]
//
// 1. progress over a thousand records of plain JSON, page and JSON; then the PDF too
// 2. the same over five times as many: the time of a night may not grow
// 3. archive add over a tree of FITS files: all new, and again with nothing new
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
for (const nights of [FEW, MANY]) makeArchive(join(folder, `nights-${nights}`), nights, Number(options.frames));

const [page, node] = inTurn(runs, [() => program(...progress(FEW, '--no-pdf')), nodeAlone]);
goal(`progress of ${FEW} nights of ${options.frames} frames, page and JSON`, ratioOf(page, node), 25, '× node -e 0');
const [paper, again] = inTurn(1, [() => program(...progress(FEW)), nodeAlone]);
goal('the same with the PDF', ratioOf(paper, again), 60, '× node -e 0');
const begin = performance.now();
const megabytes = peakMegabytes(...progress(MANY, '--no-pdf'));
goal(`progress of ${MANY} nights`, (performance.now() - begin) / page.ms, LINEAR, `× that of ${FEW}`);
goal('its memory', megabytes, 1000, 'MB');

const tree = join(folder, 'tree');
makeFrames(tree, Number(options.files));
const add = ['archive', 'add', tree, '--archive', join(folder, 'imported'), '--quiet'];
const seconds = ({ ms }) => `${(ms / 1000).toFixed(2)} s`;
console.log(`archive add of ${options.files} files, all new: ${seconds(program(...add))}`);
console.log(`again, nothing new: ${seconds(program(...add))}`);
