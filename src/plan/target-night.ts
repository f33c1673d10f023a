/** Bounds on the visits to one target on a night: initially coarse, closer for those that were evaluated. */
import { itemAt } from '../model/collections.js';
import type { Board } from './board.js';
import { pricedLeft, pricesOf, visitValues } from './prices.js';
import type { Span } from './space.js';
import { bestWithin, type Within } from './within.js';

/** Shares of the usual prices at which visits are bounded first: a short visit meets no limit, a long one all. */
const PRICE_SHARES = [0, 0.35, 0.7, 1];
const PRICE_ROUNDS = 14;
/** A visit as a number: begin × (slots + 1) + end. */
export type Cell = number;

/** A visit at the end of a row, and the row before it. */
export interface RowVisit {
  readonly at: number;
  readonly cell: Cell;
  readonly end: number;
  readonly before: RowVisit | null;
}

export class TargetNight {
  /** What a visit is worth at most, by its cell; −∞ where there can be none. */
  readonly single: Float64Array;
  /** Values at prices, by cell, and what all that is lacking costs at them. */
  private readonly priced: { readonly once: number; readonly values: Float64Array }[] = [];
  private readonly joined = new Map<number, number>();
  private readonly looked = new Map<string, Within & { readonly width: number }>();

  constructor(readonly board: Board) {
    const { slots } = board;
    this.single = new Float64Array(slots * (slots + 1)).fill(-Infinity);
    const runs = runsOf(board);
    if (runs.length === 0) return;
    // The whole night at the target: at these prices a long visit keeps within the limits.
    const usual = bestWithin(board, runs, { tolerance: 0, rounds: PRICE_ROUNDS }).perHour;
    const isFree = usual.every((price) => price === 0);
    for (const share of isFree ? [0] : PRICE_SHARES) {
      const prices = pricesOf(
        board,
        usual.map((price) => share * price),
      );
      const once = pricedLeft(board, prices, board.lacking, 0);
      const values = visitValues(board, prices);
      this.priced.push({ once, values });
      values.forEach((value, cell) => {
        if (share === 0 || value + once < itemAt(this.single, cell)) this.single[cell] = value + once;
      });
    }
  }

  /** What two visits are worth together at most: they share what the target lacks. */
  joint(first: Cell, second: Cell): number {
    let most = this.single[first]! + this.single[second]!;
    for (const { once, values } of this.priced) most = Math.min(most, once + values[first]! + values[second]!);
    const close = this.joined.size > 0 ? this.joined.get(first * this.single.length + second) : undefined;
    return close !== undefined && close < most ? close : most;
  }

  /**
   * Evaluates one visit, or two together, closely.
   *
   * @param tolerance maximum distance of value and bound
   * @param width beam width
   * @returns whether that improved the bounds
   */
  look(cells: readonly Cell[], tolerance: number, width: number): { readonly within: Within; readonly isNew: boolean } {
    const key = cells.join(' ');
    const known = this.looked.get(key);
    if (known && (known.width >= width || known.bound - known.value <= tolerance))
      return { within: known, isNew: false };
    const visits = cells.map((cell) => this.spanOf(cell));
    const seen = bestWithin(this.board, visits, { tolerance, rounds: PRICE_ROUNDS, width });
    const within = known && known.value >= seen.value ? { ...known, bound: Math.min(known.bound, seen.bound) } : seen;
    this.looked.set(key, { ...within, width });
    const [first, second] = cells;
    if (first !== undefined && second !== undefined) this.joined.set(first * this.single.length + second, within.bound);
    else if (first !== undefined) this.single[first] = Math.min(itemAt(this.single, first), within.bound);
    return { within, isNew: true };
  }

  spanOf(cell: Cell): Span {
    const wide = this.board.slots + 1;
    return { begin: Math.floor(cell / wide), end: cell % wide };
  }
}

/** Stretches in which something can be done. */
function runsOf({ slots, choices, isOpen }: Board): Span[] {
  const runs: Span[] = [];
  for (let slot = 0; slot < slots; slot++) {
    if (!isOpen.subarray(slot * choices.length, (slot + 1) * choices.length).some((open) => open === 1)) continue;
    const last = runs.at(-1);
    if (last?.end === slot) runs.splice(-1, 1, { begin: last.begin, end: slot + 1 });
    else runs.push({ begin: slot, end: slot + 1 });
  }
  return runs;
}
