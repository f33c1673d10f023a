/**
 * The night as a sequence of visits to targets, none of them visited more than twice: sequences are extended in
 * parallel, slot after slot, keeping only those that could still become the best given the rest of the night.
 */
import { Largest } from './largest.js';
import type { SlotPrices } from './slot-prices.js';
import type { Cell, RowVisit, TargetNight } from './target-night.js';

export interface Row {
  /** Upper bound for all its visits together. */
  readonly value: number;
  readonly last: RowVisit | null;
}

export interface Rows {
  /** Best first. */
  readonly rows: readonly Row[];
  /** No row is worth more. */
  readonly bound: number;
}

interface Partial extends Row {
  /** Upper bound for sequences that begin like this. */
  readonly most: number;
}

/** Maximum number of sequences kept at a slot. */
const WIDTH = 150;
/** Number of the best sequences returned. */
const GIVEN = 6;

/**
 * @param floor rows worth no more are of no interest
 * @param prices what the slots are worth beside each other; without them each target may come again in the rest
 */
export function bestRows(
  slots: number,
  targets: readonly TargetNight[],
  floor: number,
  prices: SlotPrices | null,
): Rows {
  const rest = restOf(slots, targets);
  // One more than is kept: it bounds what is dropped.
  const atSlot = Array.from({ length: slots + 1 }, () => new Largest<Partial>(WIDTH + 1, ({ most }) => most));
  atSlot[0]!.add({ value: 0, last: null, most: rest[0]! });
  let bound = floor;
  const add = (value: number, last: RowVisit | null, end: number): void => {
    const most = Math.min(value + rest[end]!, prices ? value + prices.ahead(end, last) : Infinity);
    if (most > floor && atSlot[end]!.mayHold(most)) atSlot[end]!.add({ value, last, most });
  };
  for (let slot = 0; slot < slots; slot++) {
    const own = atSlot[slot]!.sorted();
    const dropped = own[WIDTH];
    if (dropped) bound = Math.max(bound, dropped.most);
    for (const { value, last } of own.slice(0, WIDTH)) {
      if (value + rest[slot + 1]! > floor) add(value, last, slot + 1);
      for (let at = 0; at < targets.length; at++) {
        const target = targets[at]!;
        const { single } = target;
        const been = beenAt(last, at);
        if (been.count === 2 || (last?.at === at && last.end === slot)) continue;
        for (let end = slot + 1; end <= slots; end++) {
          const cell = slot * (slots + 1) + end;
          const alone = single[cell]!;
          if (alone === -Infinity) break;
          // Cheaply first: a second visit gives no more than a first, and most rows end here.
          if (value + alone + rest[end]! <= floor) continue;
          const worth = value + (been.count === 0 ? alone : target.joint(been.first, cell) - single[been.first]!);
          const most = worth + rest[end]!;
          if (most > floor && atSlot[end]!.mayHold(most)) add(worth, { at, cell, end, before: last }, end);
        }
      }
    }
  }
  // Nothing is ahead of these: they are worth what they have.
  const rows = atSlot[slots]!.sorted().slice(0, GIVEN);
  return { rows, bound: Math.max(bound, rows[0]?.value ?? floor) };
}

/** Value of the night from a slot on, as if each target had never been visited. */
function restOf(slots: number, targets: readonly TargetNight[]): Float64Array {
  const rest = new Float64Array(slots + 1);
  for (let slot = slots - 1; slot >= 0; slot--) {
    let most = rest[slot + 1]!;
    for (const { single } of targets)
      for (let end = slot + 1; end <= slots; end++)
        most = Math.max(most, single[slot * (slots + 1) + end]! + rest[end]!);
    rest[slot] = most;
  }
  return rest;
}

/** How often a row has been at a target, and on which visit first. */
export function beenAt(last: RowVisit | null, at: number): { readonly count: number; readonly first: Cell } {
  let [count, first] = [0, -1];
  for (let visit = last; visit; visit = visit.before) if (visit.at === at) [count, first] = [count + 1, visit.cell];
  return { count, first };
}
