// What it costs to be asked for the version, against Node that does nothing: whole processes, run in turn, medians.
//
//   npm run build
//   node bench/start/run.mjs [--runs 21]
import { parseArgs } from 'node:util';
import { goal } from '../support/goal.mjs';
import { demandProgram, inTurn, nodeAlone, program, ratioOf } from '../support/measure.mjs';

const { values } = parseArgs({ options: { runs: { type: 'string', default: '21' } } });
demandProgram();
const [version, node] = inTurn(Number(values.runs), [() => program('--version'), nodeAlone]);
goal('nightledger --version', ratioOf(version, node), 1.35, '× node -e 0');
