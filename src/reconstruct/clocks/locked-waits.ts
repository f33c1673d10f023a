/**
 * Identical waits: a companion with as many frames between two dithers as the pilot, each a moment shorter, is ready
 * the same time before every move. That is one observation however often it repeats: counted as many, it would pass for
 * a clock that is behind by that time.
 */
import { itemAt, numbersOf, oncePer, partitionPoint } from '../../model/index.js';
import type { MountPause } from './cadence.js';

/** Minimum number of consecutive pauses that show a habit. */
const ROW = 8;
/** Waits within this of each other are equal, ms: readouts differ by less. */
const ALIKE_MS = 1500;
/** Minimum fraction of equal waits in a row: a refocus or a filter change occurs occasionally. */
const MOST = 0.7;
/** Minimum fraction of rows that show it. */
const MOST_ROWS = 0.5;

/** The mount's pauses, and when the companion was ready, on its own clock. */
interface Waits {
  readonly shutters: readonly { readonly readyMs: number }[];
  readonly pauses: readonly MountPause[];
}

/**
 * The weight of a pause as evidence from the companion's readiness: 1, or one over their number if the waits are equal.
 */
export const readinessWeight = oncePer(({ shutters, pauses }: Waits): number => {
  const moves = pauses.filter(({ by }) => by !== 'gap').map(({ moveMs }) => moveMs);
  const readies = numbersOf(shutters, ({ readyMs }) => readyMs).sort();
  return moves.length > ROW && readies.length > ROW && isLocked(moves, readies) ? 1 / moves.length : 1;
});

/**
 * Whether readiness stays in step with the mount. The clock offset is unknown: any frame may be the one that was ready
 * at a row's first move.
 */
function isLocked(moves: readonly number[], readies: Float64Array): boolean {
  let rows = 0;
  let locked = 0;
  for (let first = 0; first + ROW < moves.length; first += ROW) {
    rows++;
    if (readies.some((readyMs) => inStep(moves, readies, first, readyMs) >= MOST * ROW)) locked++;
  }
  return rows > 0 && locked >= MOST_ROWS * rows;
}

/** Moves after the first of a row for which some frame was ready equally early. */
function inStep(moves: readonly number[], readies: Float64Array, first: number, readyMs: number): number {
  let alike = 0;
  for (let i = 1; i <= ROW; i++) {
    const wantedMs = readyMs + itemAt(moves, first + i) - itemAt(moves, first);
    const next = partitionPoint(readies, (ms) => ms >= wantedMs - ALIKE_MS);
    if (next < readies.length && itemAt(readies, next) <= wantedMs + ALIKE_MS) alike++;
  }
  return alike;
}
