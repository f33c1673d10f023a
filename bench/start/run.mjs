// What it costs to be asked for the version, against Node that does nothing: whole processes, run in turn, medians.
//
//   npm run build
//   node bench/start/run.mjs
import { goal } from '../support/goal.mjs';
import { demandProgram, inTurn, nodeAlone, program, ratioOf } from '../support/measure.mjs';

demandProgram();
const [version, node] = inTurn(21, [() => program('--version'), nodeAlone]);
goal('nightledger --version', ratioOf(version, node), 1.35, '× node -e 0');
