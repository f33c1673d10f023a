/**
 * Prices of the night's slots, at which each target independently chooses its visits: a bound on all sequences, for a
 * slot belongs to one target (Lagrangian relaxation of the packing). They bound the value of the rest of a night when
 * some targets have been visited already.
 */
import type { Cell, RowVisit, TargetNight } from './target-night.js';

const ROUNDS = 80;

/** What a target may have of the night: one visit, or two. */
interface Columns {
  readonly begin: Int16Array;
  readonly end: Int16Array;
  /** −1 where there is no second visit. */
  readonly secondBegin: Int16Array;
  readonly secondEnd: Int16Array;
  readonly value: Float64Array;
}

/** @param known value already achieved */
export function slotPrices(slots: number, targets: readonly TargetNight[], known: number): SlotPrices {
  const columns = targets.map((target) => columnsOf(slots, target));
  let prices = new Float64Array(slots);
  let best = { bound: Infinity, prices };
  let reach = 1.5;
  for (let round = 0; round < ROUNDS; round++) {
    const summed = sumsOf(prices);
    const slope = new Float64Array(slots).fill(1);
    let bound = summed[slots]!;
    for (const own of columns) {
      const { value, index } = bestColumn(own, summed);
      if (index < 0) continue;
      bound += value;
      for (let slot = own.begin[index]!; slot < own.end[index]!; slot++) slope[slot] = slope[slot]! - 1;
      for (let slot = own.secondBegin[index]!; slot < own.secondEnd[index]!; slot++) slope[slot] = slope[slot]! - 1;
    }
    if (bound < best.bound - 1e-12) best = { bound, prices };
    else reach *= 0.85;
    let size = 0;
    slope.forEach((one, slot) => {
      if (one < 0 || prices[slot]! > 0) size += one ** 2;
    });
    if (size === 0 || bound <= known) break;
    const step = (reach * (bound - known)) / size;
    prices = prices.map((price, slot) => Math.max(0, price - step * slope[slot]!));
  }
  return new SlotPrices(slots, targets, columns, best.prices, best.bound);
}

function sumsOf(prices: Float64Array): Float64Array {
  const sums = new Float64Array(prices.length + 1);
  prices.forEach((price, slot) => {
    sums[slot + 1] = sums[slot]! + price;
  });
  return sums;
}

/** All that may be the best for a target at some prices: two visits that are worth no more than one of them may not. */
function columnsOf(slots: number, target: TargetNight): Columns {
  const wide = slots + 1;
  const rows: (readonly [number, number, number, number, number])[] = [];
  for (let begin = 0; begin < slots; begin++)
    for (let end = begin + 1; end <= slots; end++) {
      const first = begin * wide + end;
      const value = target.single[first]!;
      if (value === -Infinity) break;
      if (value > 0) rows.push([begin, end, -1, -1, value]);
      for (let next = end + 1; next < slots; next++)
        for (let last = next + 1; last <= slots; last++) {
          const second = next * wide + last;
          if (target.single[second]! === -Infinity) break;
          const both = target.joint(first, second);
          if (both > Math.max(0, value, target.single[second]!)) rows.push([begin, end, next, last, both]);
        }
    }
  return {
    begin: Int16Array.from(rows, ([begin]) => begin),
    end: Int16Array.from(rows, ([, end]) => end),
    secondBegin: Int16Array.from(rows, ([, , begin]) => begin),
    secondEnd: Int16Array.from(rows, ([, , , end]) => end),
    value: Float64Array.from(rows, ([, , , , value]) => value),
  };
}

function bestColumn({ begin, end, secondBegin, secondEnd, value }: Columns, sums: Float64Array) {
  let [most, index] = [0, -1];
  for (let at = 0; at < value.length; at++) {
    let own = value[at]! - sums[end[at]!]! + sums[begin[at]!]!;
    if (secondBegin[at]! >= 0) own -= sums[secondEnd[at]!]! - sums[secondBegin[at]!]!;
    if (own > most) [most, index] = [own, at];
  }
  return { value: most, index };
}

export class SlotPrices {
  private readonly sums: Float64Array;
  /** By target and slot: what it may still win from there on, never visited before. */
  private readonly fresh: readonly Float64Array[];
  private readonly total: Float64Array;
  private readonly again = new Map<number, Float64Array>();

  constructor(
    private readonly slots: number,
    private readonly targets: readonly TargetNight[],
    columns: readonly Columns[],
    prices: Float64Array,
    readonly bound: number,
  ) {
    this.sums = sumsOf(prices);
    this.fresh = columns.map((own) => this.freshOf(own));
    this.total = Float64Array.from(this.sums, (sum, slot) =>
      this.fresh.reduce((all, own) => all + own[slot]!, this.sums[slots]! - sum),
    );
  }

  /** Upper bound from a slot on, after a sequence that ends with a visit. */
  ahead(slot: number, last: RowVisit | null): number {
    let value = this.total[slot]!;
    for (let visit = last; visit; visit = visit.before) {
      let isLatest = true;
      for (let later = last; later !== visit && later; later = later.before)
        if (later.at === visit.at) isLatest = false;
      let isFirst = true;
      for (let earlier = visit.before; earlier; earlier = earlier.before) if (earlier.at === visit.at) isFirst = false;
      if (isLatest) value -= this.fresh[visit.at]![slot]!;
      if (isLatest && isFirst) value += this.secondOf(visit.at, visit.cell)[slot]!;
    }
    return value;
  }

  private freshOf({ begin, end, secondBegin, secondEnd, value }: Columns): Float64Array {
    const most = new Float64Array(this.slots + 1);
    value.forEach((own, at) => {
      let worth = own - this.costOf(begin[at]!, end[at]!);
      if (secondBegin[at]! >= 0) worth -= this.costOf(secondBegin[at]!, secondEnd[at]!);
      if (worth > most[begin[at]!]!) most[begin[at]!] = worth;
    });
    return fromLater(most);
  }

  /** What a second visit may win after a first. */
  private secondOf(at: number, first: Cell): Float64Array {
    const key = at * (this.slots + 1) ** 2 + first;
    const known = this.again.get(key);
    if (known) return known;
    const target = this.targets[at]!;
    const most = new Float64Array(this.slots + 1);
    for (let begin = (first % (this.slots + 1)) + 1; begin < this.slots; begin++)
      for (let end = begin + 1; end <= this.slots; end++) {
        const cell = begin * (this.slots + 1) + end;
        if (target.single[cell]! === -Infinity) break;
        const worth = target.joint(first, cell) - target.single[first]! - this.costOf(begin, end);
        if (worth > most[begin]!) most[begin] = worth;
      }
    const all = fromLater(most);
    this.again.set(key, all);
    return all;
  }

  private costOf(begin: number, end: number): number {
    return this.sums[end]! - this.sums[begin]!;
  }
}

/** The most from each slot on. */
function fromLater(most: Float64Array): Float64Array {
  for (let slot = most.length - 2; slot >= 0; slot--) most[slot] = Math.max(most[slot]!, most[slot + 1]!);
  return most;
}
