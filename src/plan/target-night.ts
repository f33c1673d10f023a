/** What is known of the visits to one target on a night: bounds first, closer ones for those that were looked at. */
import { itemAt } from '../model/collections.js';
import type { Board } from './board.js';
import { pricedLacking, visitValues } from './prices.js';
import type { RowTarget } from './rows.js';
import { visitsSpace, type Span } from './space.js';
import { bestWithin, type Within } from './within.js';

/** Shares of the usual prices at which visits are bounded first: a short visit meets no limit, a long one all. */
const PRICE_SHARES = [0, 0.35, 0.7, 1];
const PRICE_ROUNDS = 14;
/** Ways side by side through visits. */
const WIDTH = 100;

export class TargetNight implements RowTarget {
  readonly single: Float64Array;
  several: RowTarget['several'] = null;
  private readonly looked = new Map<string, Within>();

  constructor(readonly board: Board) {
    const { slots } = board;
    this.single = new Float64Array(slots * (slots + 1)).fill(-Infinity);
    // The whole night at the target: at these prices a long visit keeps within the limits.
    const runs = runsOf(board);
    const usual =
      runs.length === 0 ? null : bestWithin(visitsSpace(board, runs), { tolerance: 0, rounds: PRICE_ROUNDS }).prices;
    if (usual === null) return;
    const isFree = usual.every((price) => price === 0);
    for (const share of isFree ? [0] : PRICE_SHARES) {
      const prices = usual.map((price) => share * price);
      const once = pricedLacking(board, prices);
      visitValues(board, prices).forEach((value, cell) => {
        if (share === 0 || value + once < itemAt(this.single, cell)) this.single[cell] = value + once;
      });
    }
  }

  /**
   * Looks at visits closely.
   *
   * @param maySeparate whether several visits may be told from single ones from now on
   * @returns whether that says more than was known
   */
  look(visits: readonly Span[], tolerance: number, maySeparate: boolean): { within: Within; isNew: boolean } {
    const key = visits.map(({ begin, end }) => `${begin} ${end}`).join(',');
    const known = this.looked.get(key);
    if (known) return { within: known, isNew: false };
    const within = bestWithin(visitsSpace(this.board, visits), { tolerance, rounds: PRICE_ROUNDS, width: WIDTH });
    this.looked.set(key, within);
    const [only] = visits;
    if (only && visits.length === 1) {
      const cell = this.cellOf(only);
      if (within.bound < itemAt(this.single, cell)) this.single[cell] = within.bound;
    } else if (this.several === null && maySeparate) {
      const promised = visits.reduce((sum, visit) => sum + itemAt(this.single, this.cellOf(visit)), 0);
      const { prices } = within;
      if (promised > within.bound + tolerance)
        this.several = { values: visitValues(this.board, prices), once: pricedLacking(this.board, prices) };
    }
    return { within, isNew: true };
  }

  private cellOf({ begin, end }: Span): number {
    return begin * (this.board.slots + 1) + end;
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
