// Goals, met or missed: a line each, and a table of all at the end of a run (bench/run.mjs).
import { appendFileSync, readFileSync } from 'node:fs';

const FILE = 'NIGHTLEDGER_BENCH_RESULTS';

/**
 * Says how far one goal is reached.
 *
 * @param {string} what the work
 * @param {number | null} value a ratio to the anchor of the same run, or MB; `null` where it could not be measured
 * @param {number} goal at most that
 * @param {string} unit what the value counts: `× node -e 0`, `MB`; or why there is no value
 */
export function goal(what, value, goal, unit) {
  const result = { what, value, goal, unit, state: value === null ? 'not measured' : value <= goal ? 'met' : 'MISSED' };
  console.log(lineOf(result));
  const file = process.env[FILE];
  if (file !== undefined) appendFileSync(file, `${JSON.stringify(result)}\n`);
}

const shown = (value) => (value === null ? '–' : value >= 100 ? value.toFixed(0) : value.toPrecision(3));

function lineOf({ what, value, goal, unit, state }) {
  return `${what}: ${shown(value)} ${unit}, goal ≤ ${goal}: ${state}`;
}

/** The environment for a benchmark that shall add its results to a file. */
export const writingTo = (file) => ({ [FILE]: file });

/** All results of a file as a table. */
export function tableOf(file) {
  const results = readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line));
  const rows = results.map(({ what, value, goal, unit, state }) => [what, shown(value), `≤ ${goal}`, unit, state]);
  const widths = [0, 1, 2, 3].map((column) => Math.max(...rows.map((row) => row[column].length), 0));
  const lines = rows.map((row) =>
    row.map((cell, i) => (i === 1 || i === 2 ? cell.padStart(widths[i]) : cell.padEnd(widths[i] ?? 0))).join('  '),
  );
  const met = results.filter(({ state }) => state === 'met').length;
  return [...lines, `${met} of ${results.length} goals met`].join('\n');
}
