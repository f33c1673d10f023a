/**
 * Ways through the night or a part of it, side by side, slot after slot: those alone that could still become the best
 * (labels with dominance under an upper bound; M. Desrochers & F. Soumis 1988, INFOR 26, 191).
 */
import type { Ahead } from './prices.js';
import type { Deed, Field, Place, Space } from './space.js';

/** What each place and those after it are worth at most, by board and the own choice before; and after rest. */
export interface AheadOfPlace {
  readonly boards: readonly Ahead[];
  readonly rest: number;
}

/** Times the width: among so many ways those that others make up for are looked for. */
const AMPLE = 5;

interface Label {
  readonly last: Deed;
  readonly value: number;
  readonly left: Float64Array;
  /** Value, with the price of what is left. */
  readonly priced: number;
  /** No way that begins so is worth more. */
  readonly most: number;
  readonly before: Label | null;
}

export interface Search extends Space {
  /** By line of all boards. */
  readonly prices: Float64Array;
  /** At these prices: what the places are worth at most, one entry more than there are places. */
  readonly ahead: readonly AheadOfPlace[];
  /** Only what is worth more is of interest. */
  readonly floor: number;
  /** Ways kept after a slot, at most. */
  readonly width: number;
}

export interface Found {
  /** The best way that is worth more than the floor. */
  readonly way: readonly Deed[] | null;
  readonly value: number;
  /** No way is worth more. */
  readonly bound: number;
}

/** Searches for a way worth more than the floor. */
export function bestLabel(search: Search): Found {
  const { fields, places, lacking, prices, ahead, floor, width } = search;
  const top = topWorth(search);
  let priced = 0;
  for (let line = 0; line < lacking.length; line++) priced += lacking[line]! * prices[line]!;
  let labels: Label[] = [{ last: null, value: 0, left: lacking, priced, most: Infinity, before: null }];
  let bound = floor;
  places.forEach((place, at) => {
    const next: Label[] = [];
    const after = ahead[at + 1]!;
    for (const label of labels) {
      fields.forEach((_, field) => grow(search, place, label, field, after.boards[field]!, next));
      if (place.is === 'free' && label.priced + after.rest > floor)
        next.push({ ...label, last: null, most: label.priced + after.rest, before: label });
    }
    const cut = cutOf(next, AMPLE * width);
    bound = Math.max(bound, cut);
    const best = next.filter(({ most }) => most >= cut).sort((a, b) => b.most - a.most);
    labels = notDominated(best, fields, top, width);
    const dropped = labels[width];
    if (dropped) bound = Math.max(bound, dropped.most);
    labels.length = Math.min(labels.length, width);
  });
  let best: Label | null = null;
  for (const label of labels) if (label.value > (best?.value ?? floor)) best = label;
  const value = best?.value ?? floor;
  return { way: best && wayOf(best), value, bound: Math.max(bound, value) };
}

/** What the last of so many best ways is worth at most; −∞ where there are no more than these. */
function cutOf(labels: readonly Label[], many: number): number {
  if (labels.length <= many) return -Infinity;
  return Float64Array.from(labels, ({ most }) => most).sort()[labels.length - many]!;
}

function grow(search: Search, { slot, is }: Place, label: Label, field: number, ahead: Ahead, next: Label[]): void {
  const { board, offset } = search.fields[field]!;
  const { choices, trains, kinds, isOpen, lineOf, worth, hours, effort, change } = board;
  const count = choices.length;
  const stays = is !== 'begin' && label.last?.field === field;
  for (let to = 0; to < count; to++) {
    const cell = slot * count + to;
    if (isOpen[cell] === 0) continue;
    const kind = stays && label.last ? change[label.last.choice * count + to]! : kinds - 1;
    const at = cell * kinds + kind;
    let value = label.value - effort[at]!;
    let priced = label.priced - effort[at]!;
    let left = label.left;
    for (let train = 0; train < trains; train++) {
      const own = lineOf[to * trains + train]!;
      if (own < 0) continue;
      const line = offset + own;
      const taken = Math.min(left[line]!, hours[at * trains + train]!);
      if (taken <= 0) continue;
      if (left === label.left) left = Float64Array.from(left);
      left[line] = left[line]! - taken;
      const per = worth[cell * trains + train]!;
      value += per * taken;
      priced += (per - search.prices[line]!) * taken;
    }
    const most = priced + ahead[to]!;
    if (most > search.floor) next.push({ last: { field, choice: to }, value, left, priced, most, before: label });
  }
}

/** What an hour of each line is worth at most. */
function topWorth({ fields, places, lacking }: Search): Float64Array {
  const top = new Float64Array(lacking.length);
  for (const { board, offset } of fields) {
    const per = board.choices.length * board.trains;
    for (const { slot } of places)
      for (let at = 0; at < per; at++) {
        const line = offset + board.lineOf[at]!;
        const own = board.worth[slot * per + at]!;
        if (line >= offset && own > top[line]!) top[line] = own;
      }
  }
  return top;
}

/** Leaves out what another with the same last choice makes up for, even by what its lines still lack. */
function notDominated(labels: readonly Label[], fields: readonly Field[], top: Float64Array, width: number): Label[] {
  const groups = fields.map(({ board }) => board.choices.map((): Label[] => []));
  const rests: Label[] = [];
  const kept: Label[] = [];
  for (const label of labels) {
    if (kept.length > width) break;
    const own = label.last ? groups[label.last.field]![label.last.choice]! : rests;
    if (own.some((other) => makesUpFor(other, label, top))) continue;
    own.push(label);
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

function wayOf(last: Label): Deed[] {
  const way: Deed[] = [];
  for (let label: Label | null = last; label?.before; label = label.before) way.push(label.last);
  return way.reverse();
}
