// What it costs to lay a night's frames on one another once their stars are measured, on drawn star lists of a 26 MP
// sensor: milliseconds a frame of one core.
//
//   node bench/pointing/run.mjs [--hours N] [--runs N]
import { parseArgs } from 'node:util';
import { withModule } from '../../scripts/load-ts.mjs';
import { goal } from '../support/goal.mjs';

/** Milliseconds a frame for all of it. */
const GOAL = 5;
const { values } = parseArgs({
  options: { hours: { type: 'string', default: '8' }, runs: { type: 'string', default: '5' } },
});
await withModule('/tests/support/pointing-cost.ts', ({ pointingCost }) => {
  const { frames, registration, pointing, flux } = pointingCost(Number(values.hours), Number(values.runs));
  const all = pointing + flux;
  process.stdout.write(
    `${frames} frames of two trains, ms a frame: registration ${registration.toFixed(2)}; with the trains on each other, drift, flexure, dithers and rotation ${pointing.toFixed(2)}; relative flux ${flux.toFixed(2)}\n`,
  );
  goal('a night’s frames laid on one another', all, GOAL, 'ms a frame');
});
