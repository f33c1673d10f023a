// Goals, met or missed: a line each, and a table of all at the end of a run (bench/run.mjs).
import { appendFileSync, readFileSync } from 'node:fs';

const FILE = 'NIGHTLEDGER_BENCH_RESULTS';

/**
 * Says how far one goal is reached.
 *
 * @param {string} what the work
 * @param {number | { clock: number, processor: number } | null} measured a ratio to the anchor of the same run by the
 *   clock, which counts, and by the processor; MB; `null` where it could not be measured
 * @param {number} goal at most that
 * @param {string} unit what the value counts: `× node -e 0`, `MB`; or why there is no value
 */
export function goal(what, measured, goal, unit) {
  const { clock: value, processor = null } = typeof measured === 'object' && measured ? measured : { clock: measured };
  const state = value === null ? 'not measured' : value <= goal ? 'met' : 'MISSED';
  const result = { what, value, processor: Number.isFinite(processor) ? processor : null, goal, unit, state };
  console.log(lineOf(result));
  const file = process.env[FILE];
  if (file !== undefined) appendFileSync(file, `${JSON.stringify(result)}\n`);
}

const shown = (value) => (value === null ? '–' : value >= 100 ? value.toFixed(0) : value.toPrecision(3));

function lineOf({ what, value, processor, goal, unit, state }) {
  const beside = processor === null ? '' : ` (by processor time ${shown(processor)})`;
  return `${what}: ${shown(value)} ${unit}${beside}, goal ≤ ${goal}: ${state}`;
}

/** The environment for a benchmark that shall add its results to a file. */
export const writingTo = (file) => ({ [FILE]: file });

/** All results of a file as a table. */
export function tableOf(file) {
  const results = readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line));
  const rows = [
    ['', 'by the clock', 'by processor', 'goal', '', ''],
    ...results.map(({ what, value, processor, goal, unit, state }) => [
      what,
      shown(value),
      shown(processor),
      `≤ ${goal}`,
      unit,
      state,
    ]),
  ];
  const widths = [0, 1, 2, 3, 4].map((column) => Math.max(...rows.map((row) => row[column].length), 0));
  const lines = rows.map((row) =>
    row
      .map((cell, i) => (i >= 1 && i <= 3 ? cell.padStart(widths[i]) : cell.padEnd(widths[i] ?? 0)))
      .join('  ')
      .trimEnd(),
  );
  const met = results.filter(({ state }) => state === 'met').length;
  return [...lines, `${met} of ${results.length} goals met`].join('\n');
}
