// Benchmark of Moon and target places against astropy (astropy_anchor.py): whole processes, run in turn, medians.
//
//   node bench/sky/run.mjs [--instants N] [--runs N] [--python PROGRAM]
//
// Needs a Python with astropy (Debian: apt-get install python3-astropy, for /usr/bin/python3).
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { bundle } from '../support/bundle.mjs';
import { goal } from '../support/goal.mjs';
import { inTurn, ratioOf, stop, timed, workFolder } from '../support/measure.mjs';

const GOAL = 0.1;

const here = dirname(fileURLToPath(import.meta.url));
const { values: options } = parseArgs({
  options: {
    instants: { type: 'string', default: '2000' },
    runs: { type: 'string', default: '5' },
    python: { type: 'string' },
  },
});
const what = `Moon and target at ${options.instants} instants`;
const pythons = options.python === undefined ? ['python3', '/usr/bin/python3'] : [options.python];
const python = pythons.find((program) => spawnSync(program, ['-c', 'import astropy']).status === 0);

if (python === undefined) goal(what, null, GOAL, '× astropy, which is not installed');
else {
  const js = join(workFolder('sky'), 'js');
  await bundle(js, ['sky/index.ts']);
  const ours = () => timed(process.execPath, [join(here, 'place.cjs'), js, options.instants]);
  const theirs = () => timed(python, [join(here, 'astropy_anchor.py'), options.instants]);
  const [mine, other] = [ours().stdout, theirs().stdout];
  if (mine !== other) stop(`the two programs see different skies:\n  nightledger: ${mine}  astropy:     ${other}`);
  const [sky, astropy] = inTurn(Number(options.runs), [ours, theirs]);
  goal(what, ratioOf(sky, astropy), GOAL, '× astropy');
}
