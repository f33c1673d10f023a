/**
 * The best way through a space within the limits of its lines: prices first, moved until the priced way keeps within
 * the limits, then ways side by side at the prices that bound it best.
 */
import { bestLabel, type AheadOfPlace } from './labels.js';
import { bestBegin, gainsAt, stepBack } from './prices.js';
import { kindOf, worthWithin, type Deed, type Place, type Space } from './space.js';

export interface Within {
  readonly value: number;
  /** No way is worth more than this. */
  readonly bound: number;
  readonly way: readonly Deed[];
  /** The prices at which the bound was least. */
  readonly prices: Float64Array;
}

export interface Effort {
  /** How far value and bound may stay apart. */
  readonly tolerance: number;
  /** Rounds of prices. */
  readonly rounds: number;
  /** Ways side by side, at most; none when absent. */
  readonly width?: number;
  /** A value that is known to be had: a way worth less is of no interest. */
  readonly known?: number;
}

/** The way is the best found, be it worth less than what is known. */
export function bestWithin(space: Space, { tolerance, rounds, width, known = -Infinity }: Effort): Within {
  let prices = new Float64Array(space.lacking.length);
  let best: { readonly value: number; readonly way: readonly Deed[] } = { value: -Infinity, way: [] };
  let tightest: (Priced & { readonly prices: Float64Array }) | null = null;
  let reach = 1.2;
  for (let round = 0; round < rounds; round++) {
    const priced = pricedWay(space, prices);
    if (tightest === null || priced.bound < tightest.bound - 1e-12) tightest = { ...priced, prices };
    else reach *= 0.7;
    const value = worthWithin(space, priced.way);
    if (value > best.value) best = { value, way: priced.way };
    if (tightest.bound - Math.max(best.value, known) <= tolerance) break;
    const next = moved(space, prices, priced.used, reach * Math.max(priced.bound - Math.max(best.value, known), 1e-9));
    if (next === null) break;
    prices = next;
  }
  if (tightest === null) throw new RangeError('there is a best way at any prices');
  const { ahead, bound, prices: tight } = tightest;
  const floor = Math.max(best.value, known) + tolerance;
  if (width === undefined || bound <= floor) return { ...best, bound, prices: tight };
  const found = bestLabel({ ...space, prices: tight, ahead, floor, width });
  if (found.way) best = { value: found.value, way: found.way };
  return { ...best, bound: Math.min(bound, found.bound), prices: tight };
}

/** One step against what the priced way takes too much (B. T. Polyak 1969, USSR Comput. Math. 9, 14). */
function moved({ lacking }: Space, prices: Float64Array, used: Float64Array, length: number) {
  const slope = lacking.map((hours, line) => hours - used[line]!);
  let size = 0;
  slope.forEach((one, line) => {
    if (one < 0 || prices[line]! > 0) size += one ** 2;
  });
  return size === 0 ? null : prices.map((price, line) => Math.max(0, price - (length / size) * slope[line]!));
}

interface Priced {
  readonly bound: number;
  readonly ahead: readonly AheadOfPlace[];
  readonly way: readonly Deed[];
  /** Hours that the way would take of each line, were there no limit over the slots. */
  readonly used: Float64Array;
}

function pricedWay(space: Space, prices: Float64Array): Priced {
  const { fields, places, lacking } = space;
  const gains = fields.map(({ board, offset }) => {
    const slots = places.map(({ slot }) => slot);
    return gainsAt(board, prices.subarray(offset, offset + board.lines.length), slots);
  });
  const emptyAhead = (): AheadOfPlace => ({
    boards: fields.map(({ board }) => new Float64Array(board.choices.length)),
    rest: 0,
  });
  let next = emptyAhead();
  const ahead = [next];
  for (const { slot, is } of places.toReversed()) {
    let rest = is === 'free' ? next.rest : -Infinity;
    if (is !== 'stay')
      fields.forEach(({ board }, i) => {
        rest = Math.max(rest, bestBegin(board, gains[i]!, slot, next.boards[i]!).value);
      });
    const own = { ...emptyAhead(), rest };
    fields.forEach(({ board }, i) => {
      const after = own.boards[i]!;
      if (is === 'begin') after.fill(rest);
      else {
        stepBack(board, gains[i]!, slot, next.boards[i]!, after);
        if (is === 'free') for (let at = 0; at < after.length; at++) after[at] = Math.max(after[at]!, rest);
      }
    });
    ahead.unshift(own);
    next = own;
  }
  const way: Deed[] = [];
  const used = new Float64Array(lacking.length);
  places.forEach((place, i) => {
    const before = way.at(-1) ?? null;
    const deed = bestDeed(space, gains, place, before, ahead[i + 1]!);
    if (deed) addUsed(space, place, before, deed, prices, used);
    way.push(deed);
  });
  const priced = lacking.reduce((sum, hours, line) => sum + hours * prices[line]!, 0);
  return { bound: next.rest + priced, ahead, way, used };
}

function bestDeed(
  { fields }: Space,
  gains: readonly Float64Array[],
  { slot, is }: Place,
  before: Deed,
  after: AheadOfPlace,
): Deed {
  let value = is === 'free' ? after.rest : -Infinity;
  let best: Deed = null;
  fields.forEach(({ board }, field) => {
    const count = board.choices.length;
    const [own, next] = [gains[field]!, after.boards[field]!];
    if (is !== 'begin' && before?.field === field)
      for (let to = 0; to < count; to++) {
        const kind = board.change[before.choice * count + to]!;
        const worth = own[(slot * count + to) * board.kinds + kind]! + next[to]!;
        if (worth > value) [value, best] = [worth, { field, choice: to }];
      }
    if (is === 'stay') return;
    const begin = bestBegin(board, own, slot, next);
    if (begin.value > value) [value, best] = [begin.value, { field, choice: begin.to }];
  });
  return best;
}

function addUsed(
  space: Space,
  place: Place,
  before: Deed,
  deed: NonNullable<Deed>,
  prices: Float64Array,
  used: Float64Array,
): void {
  const { board, offset } = space.fields[deed.field]!;
  const { choices, trains, kinds, lineOf, worth, hours } = board;
  const cell = place.slot * choices.length + deed.choice;
  const at = cell * kinds + kindOf(space, place, before, deed);
  for (let train = 0; train < trains; train++) {
    const own = lineOf[deed.choice * trains + train]!;
    const line = offset + own;
    if (own < 0 || worth[cell * trains + train]! <= prices[line]!) continue;
    used[line] = used[line]! + Math.min(space.lacking[line]!, hours[at * trains + train]!);
  }
}
