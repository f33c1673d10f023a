// A night's report (page and JSON) as a whole process, against Node that does nothing, with its peak memory; at two
// sizes, to see how cost grows.
//
//   npm run build
//   node bench/night/run.mjs [--runs N]
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { goal } from '../support/goal.mjs';
import { demandProgram, inTurn, nodeAlone, peakMegabytes, program, ratioOf, workFolder } from '../support/measure.mjs';
import { makeNight } from './make-night.mjs';

const { values } = parseArgs({ options: { runs: { type: 'string', default: '5' } } });
const SIZES = [
  { name: 'a normal night', seconds: 240, hours: 10.5, lines: 100_000, ratio: 10, megabytes: 200 },
  { name: 'short subs', seconds: 1, hours: 12, ditherEvery: 400, lines: 100_000, ratio: 60, megabytes: 400 },
];

demandProgram();
const folder = workFolder('night');
for (const [i, size] of SIZES.entries()) {
  const session = join(folder, String(i));
  const made = await makeNight(session, size);
  const args = ['report', session, '--out', join(folder, `out-${i}`), '--no-pdf', '--quiet'];
  const [report, node] = inTurn(Number(values.runs), [() => program(...args), nodeAlone]);
  const what = `report of ${size.name}, ${made.frames} frames and ${made.lines} log lines, page and JSON`;
  console.log(`${(report.ms / 1000).toFixed(2)} s, ${(report.ms / made.frames).toFixed(2)} ms a frame`);
  goal(what, ratioOf(report, node), size.ratio, '× node -e 0');
  goal(`its memory`, peakMegabytes(...args), size.megabytes, 'MB');
}
