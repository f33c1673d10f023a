/**
 * A target's slots at prices in place of limits (Lagrangian relaxation; A. M. Geoffrion 1974, Mathematical Programming
 * Study 2, 82), and the best way through them by dynamic programming from their end (R. Bellman 1957). Its value, with
 * the price of all that is lacking, is never below that of the best way within the limits.
 *
 * The remainder through a filter is only available after changing to it, which costs a change unless the mount arrives
 * at the target with it: part of its price is paid then (its fee), and no sooner.
 */
import type { Board } from './board.js';
import type { Place } from './space.js';

export interface Prices {
  /** Value per hour, by own line. */
  readonly perHour: Float64Array;
  /** Value that each begin with a filter of a group is credited, by group. */
  readonly fees: Float64Array;
}

/** The prices with their fees: as much as a change costs, and no more than all that is lacking is priced. */
export function pricesOf({ groupOf, lacking, changeEffort }: Board, perHour: Float64Array): Prices {
  const fees = new Float64Array(changeEffort.length);
  groupOf.forEach((group, line) => {
    if (group >= 0) fees[group] = fees[group]! + perHour[line]! * lacking[line]!;
  });
  return { perHour, fees: fees.map((price, group) => Math.min(price, changeEffort[group]!)) };
}

/** The price of what is left, but for the fees of filters that no train has. @param on groups whose filters are on */
export function pricedLeft({ groupOf }: Board, { perHour, fees }: Prices, left: Float64Array, on: number): number {
  let sum = 0;
  for (let line = 0; line < left.length; line++) if (groupOf[line]! < 0) sum += left[line]! * perHour[line]!;
  for (let group = 0; group < fees.length; group++) {
    let own = 0;
    for (let line = 0; line < left.length; line++) if (groupOf[line] === group) own += left[line]! * perHour[line]!;
    sum += (on >> group) & 1 ? own : Math.max(0, own - fees[group]!);
  }
  return sum;
}

/** What a slot gains at most at prices: `[(slot × choices + choice) × kinds + kind]`; −∞ where a choice is none. */
export function gainsAt(board: Board, prices: Prices, places: readonly Pick<Place, 'slot'>[]): Float64Array {
  const { choices, kinds, isOpen } = board;
  const gains = new Float64Array(board.slots * choices.length * kinds).fill(-Infinity);
  for (const { slot } of places) {
    for (let choice = 0; choice < choices.length; choice++) {
      const cell = slot * choices.length + choice;
      if (isOpen[cell] === 0) continue;
      for (let kind = 0; kind < kinds; kind++) {
        const at = cell * kinds + kind;
        gains[at] = gainOf(board, choice, cell, kind, prices);
      }
    }
  }
  return gains;
}

/** Trains that fill one line take no more together than it lacks. */
function gainOf(board: Board, choice: number, cell: number, kind: number, { perHour, fees }: Prices): number {
  const { trains, kinds, lineOf, groupAt, worth, hours, lacking, effort } = board;
  const at = cell * kinds + kind;
  let gain = -effort[at]!;
  for (let train = 0; train < trains; train++) {
    const group = groupAt[choice * trains + train]!;
    if (group >= 0 && (kind === kinds - 1 || (kind >> train) & 1)) gain += fees[group]!;
    const line = lineOf[choice * trains + train]!;
    if (line < 0) continue;
    let isCounted = false;
    for (let one = 0; one < train; one++) if (lineOf[choice * trains + one] === line) isCounted = true;
    if (isCounted) continue;
    let sum = 0;
    let top = 0;
    for (let one = train; one < trains; one++) {
      if (lineOf[choice * trains + one] !== line) continue;
      const margin = worth[cell * trains + one]! - perHour[line]!;
      if (margin <= 0) continue;
      sum += margin * hours[at * trains + one]!;
      if (margin > top) top = margin;
    }
    gain += Math.min(sum, top * lacking[line]!);
  }
  return gain;
}

/** What the slots from one on are worth at most, by the own choice before it. */
export type Ahead = Float64Array;

/**
 * One slot further back.
 *
 * @param next what the slots after it are worth, by the choice in it
 * @param out by the choice before it
 */
export function stepBack(board: Board, gains: Float64Array, slot: number, next: Ahead, out: Ahead): void {
  const { choices, kinds, views } = board;
  const count = choices.length;
  out.fill(-Infinity);
  for (let kind = 0; kind < kinds - 1; kind++) {
    const { size, keys, digits } = views[kind]!;
    const best = scratchOf(size);
    for (let to = 0; to < count; to++) {
      const value = gains[(slot * count + to) * kinds + kind]! + next[to]!;
      if (value > best[keys[to]!]!) best[keys[to]!] = value;
    }
    // A train that stops keeps nothing: whatever it had before.
    for (const { stride, radix } of digits)
      for (let key = 0; key < size; key++) {
        const digit = Math.floor(key / stride) % radix;
        if (digit > 0 && best[key - digit * stride]! > best[key]!) best[key] = best[key - digit * stride]!;
      }
    for (let from = 0; from < count; from++) {
      const value = best[keys[from]!]!;
      if (value > out[from]!) out[from] = value;
    }
  }
}

let scratch = new Float64Array(64);
function scratchOf(size: number): Float64Array {
  if (scratch.length < size) scratch = new Float64Array(size);
  return scratch.fill(-Infinity, 0, size);
}

/** The best begin of a visit in a slot, and its choice. */
export function bestBegin(board: Board, gains: Float64Array, slot: number, next: Ahead): { value: number; to: number } {
  const { choices, kinds } = board;
  let [value, to] = [-Infinity, -1];
  for (let one = 0; one < choices.length; one++) {
    const own = gains[(slot * choices.length + one) * kinds + kinds - 1]! + next[one]!;
    if (own > value) [value, to] = [own, one];
  }
  return { value, to };
}

/**
 * What visits are worth at most at prices, by begin and end: `[begin × (slots + 1) + end]`, without the price of what
 * is lacking; −∞ where there can be none.
 */
export function visitValues(board: Board, prices: Prices): Float64Array {
  const { slots, choices } = board;
  const places = Array.from({ length: slots }, (_, slot) => ({ slot }));
  const gains = gainsAt(board, prices, places);
  const values = new Float64Array(slots * (slots + 1)).fill(-Infinity);
  let [next, spare] = [new Float64Array(choices.length), new Float64Array(choices.length)];
  for (let end = 1; end <= slots; end++) {
    next.fill(0);
    for (let begin = end - 1; begin >= 0; begin--) {
      const { value } = bestBegin(board, gains, begin, next);
      if (value === -Infinity) break;
      values[begin * (slots + 1) + end] = value;
      stepBack(board, gains, begin, next, spare);
      [next, spare] = [spare, next];
    }
  }
  return values;
}
