/**
 * Sequences of visits, extended in parallel slot after slot: only those that could still become the best (labels with
 * dominance under an upper bound; M. Desrochers & F. Soumis 1988, INFOR 26, 191).
 */
import type { Board } from './board.js';
import { leastOfLargest } from './largest.js';
import { pricedLeft, type Ahead, type Prices } from './prices.js';
import { kindOf, type Place, type Played } from './space.js';

interface Label {
  readonly last: number;
  readonly value: number;
  readonly left: Float64Array;
  /** Upper bound for sequences that begin like this. */
  readonly most: number;
  /** By what is kept: among sequences with the same potential, those that have progressed further come first. */
  readonly rank: number;
  readonly before: Label | null;
}

export interface Search {
  readonly prices: Prices;
  /** At these prices: the maximum value of each place and those after it, one entry more than there are places. */
  readonly ahead: readonly Ahead[];
  /** Only larger values are of interest. */
  readonly floor: number;
  /** Maximum number of sequences kept after a slot. */
  readonly width: number;
}

/** Weight of the value achieved relative to the maximum still possible. */
const TILT = 0.2;
/**
 * Sequences expanded in one search: beyond these it continues with a narrow beam, so that a wide one ends in about a
 * second.
 */
const MOST_GROWN = 100_000;
const NARROW = 100;
/** A sequence is compared with this many of those before it: the best come first. */
const MOST_COMPARED = 60;
/** Multiple of the width: among this many sequences, dominated ones are searched for. */
const AMPLE = 5;

/** The best sequence above the floor, and an upper bound. */
export function bestLabel(
  board: Board,
  places: readonly Place[],
  search: Search,
): { readonly found: Played | null; readonly bound: number } {
  const { ahead, floor } = search;
  const top = topWorth(board, places);
  let labels: Label[] = [{ last: -1, value: 0, left: board.lacking, most: Infinity, rank: 0, before: null }];
  let bound = floor;
  let grown = 0;
  places.forEach((place, at) => {
    const width = grown < MOST_GROWN ? search.width : Math.min(NARROW, search.width);
    const next: Label[] = [];
    for (const label of labels) grow(board, search, place, label, ahead[at + 1]!, next);
    grown += next.length;
    const cut = leastOfLargest(next, AMPLE * width, ({ rank }) => rank);
    const best: Label[] = [];
    for (const label of next)
      if (label.rank >= cut) best.push(label);
      else if (label.most > bound) bound = label.most;
    best.sort((a, b) => b.rank - a.rank);
    const kept = notDominated(best, board.choices.length, top);
    labels = kept.slice(0, width);
    for (const { most } of kept.slice(width)) if (most > bound) bound = most;
  });
  let best: Label | null = null;
  for (const label of labels) if (label.value > (best?.value ?? floor)) best = label;
  return { found: best && { value: best.value, way: wayOf(best) }, bound: Math.max(bound, best?.value ?? floor) };
}

function grow(board: Board, search: Search, { slot, isBegin }: Place, label: Label, ahead: Ahead, next: Label[]): void {
  const { choices, trains, kinds, isOpen, lineOf, groupAt, worth, hours, effort } = board;
  const lacking = new Float64Array(label.left.length);
  for (let to = 0; to < choices.length; to++) {
    const cell = slot * choices.length + to;
    if (isOpen[cell] === 0) continue;
    const at = cell * kinds + kindOf(board, isBegin, label.last, to);
    let value = label.value - effort[at]!;
    // Copied where something is taken of it, to a place of its own only if the way may be kept.
    let left = label.left;
    let on = 0;
    for (let train = 0; train < trains; train++) {
      const line = lineOf[to * trains + train]!;
      if (line < 0) continue;
      const group = groupAt[to * trains + train]!;
      if (group >= 0) on |= 1 << group;
      const taken = Math.min(left[line]!, hours[at * trains + train]!);
      if (taken <= 0) continue;
      if (left === label.left) {
        for (let i = 0; i < lacking.length; i++) lacking[i] = left[i]!;
        left = lacking;
      }
      left[line] = left[line]! - taken;
      value += worth[cell * trains + train]! * taken;
    }
    const most = value + pricedLeft(board, search.prices, left, on) + ahead[to]!;
    if (most <= search.floor) continue;
    if (left === lacking) left = lacking.slice();
    next.push({ last: to, value, left, most, rank: most + TILT * value, before: label });
  }
}

/** Maximum value of an hour of each line. */
export function topWorth({ choices, trains, lineOf, worth, lacking }: Board, places: readonly Place[]): Float64Array {
  const top = new Float64Array(lacking.length);
  const per = choices.length * trains;
  for (const { slot } of places)
    for (let at = 0; at < per; at++) {
      const [line, own] = [lineOf[at]!, worth[slot * per + at]!];
      if (line >= 0 && own > top[line]!) top[line] = own;
    }
  return top;
}

/** Drops sequences dominated by another with the same last choice, even after adding what its lines still lack. */
function notDominated(labels: readonly Label[], choices: number, top: Float64Array): Label[] {
  const groups = Array.from({ length: choices }, (): Label[] => []);
  const kept: Label[] = [];
  for (const label of labels) {
    const own = groups[label.last]!;
    if (own.some((other) => makesUpFor(other, label, top))) continue;
    if (own.length < MOST_COMPARED) own.push(label);
    kept.push(label);
  }
  return kept;
}

function makesUpFor(one: Label, other: Label, top: Float64Array): boolean {
  let ahead = one.value - other.value + 1e-9;
  for (let line = 0; line < top.length && ahead >= 0; line++) {
    const more = other.left[line]! - one.left[line]!;
    if (more > 0) ahead -= more * top[line]!;
  }
  return ahead >= 0;
}

function wayOf(last: Label): number[] {
  const way: number[] = [];
  for (let label: Label | null = last; label?.before; label = label.before) way.push(label.last);
  return way.reverse();
}
