/**
 * The best path through given visits within the limits of the target's lines: prices first, adjusted until the priced
 * path keeps within the limits, then a beam search at the prices that bound it best.
 */
import type { Board } from './board.js';
import { bestLabel, topWorth } from './labels.js';
import { bestBegin, gainsAt, pricedLeft, pricesOf, stepBack, type Ahead, type Prices } from './prices.js';
import { kindOf, placesOf, play, type Place, type Played, type Span } from './space.js';

/** Fractions of the maximum value of an hour: initial prices. */
const FIRST_SHARES = [0.5, 0.85, 1];

export interface Within extends Played {
  /** No way through these visits is worth more. */
  readonly bound: number;
  /** Value per hour by line, at which the bound was smallest. */
  readonly perHour: Float64Array;
}

export interface Effort {
  /** How far value and bound may stay apart. */
  readonly tolerance: number;
  /** Rounds of prices. */
  readonly rounds: number;
  /** Maximum beam width; no search when absent. */
  readonly width?: number;
}

export function bestWithin(board: Board, visits: readonly Span[], { tolerance, rounds, width }: Effort): Within {
  const places = placesOf(visits);
  const top = topWorth(board, places);
  let best: Played = { value: -Infinity, way: [] };
  const look = (perHour: Float64Array): Priced => {
    const priced = pricedWay(board, places, pricesOf(board, perHour));
    const played = play(board, places, priced.way);
    if (played.value > best.value) best = played;
    return priced;
  };
  let tightest = look(new Float64Array(board.lines.length));
  for (const share of FIRST_SHARES) {
    if (tightest.bound - best.value <= tolerance) break;
    const priced = look(top.map((worth) => share * worth));
    if (priced.bound < tightest.bound) tightest = priced;
  }
  let last = tightest;
  let reach = 1;
  for (let round = 0; round < rounds && tightest.bound - best.value > tolerance; round++) {
    const perHour = moved(board, last, reach * Math.max(last.bound - best.value, 1e-9));
    if (perHour === null) break;
    last = look(perHour);
    if (last.bound < tightest.bound - 1e-12) tightest = last;
    else reach *= 0.7;
  }
  const { ahead, bound, prices } = tightest;
  const floor = best.value + tolerance;
  if (width === undefined || bound <= floor) return { ...best, bound, perHour: prices.perHour };
  const close = bestLabel(board, places, { prices, ahead, floor, width });
  return { ...(close.found ?? best), bound: Math.min(bound, close.bound), perHour: prices.perHour };
}

/** One step against excess use by the priced path (B. T. Polyak 1969, USSR Comput. Math. 9, 14). */
function moved({ lacking }: Board, { prices: { perHour }, used }: Priced, length: number) {
  const slope = lacking.map((hours, line) => hours - used[line]!);
  let size = 0;
  slope.forEach((one, line) => {
    if (one < 0 || perHour[line]! > 0) size += one ** 2;
  });
  return size === 0 ? null : perHour.map((price, line) => Math.max(0, price - (length / size) * slope[line]!));
}

interface Priced {
  readonly prices: Prices;
  readonly bound: number;
  readonly ahead: readonly Ahead[];
  readonly way: readonly number[];
  /** Hours that the way would take of each line, were there no limit over the slots. */
  readonly used: Float64Array;
}

function pricedWay(board: Board, places: readonly Place[], prices: Prices): Priced {
  const count = board.choices.length;
  const gains = gainsAt(board, prices, places);
  const ahead: Ahead[] = Array.from({ length: places.length + 1 }, () => new Float64Array(count));
  for (let at = places.length - 1; at >= 0; at--) {
    const { slot, isBegin } = places[at]!;
    if (isBegin) ahead[at]!.fill(bestBegin(board, gains, slot, ahead[at + 1]!).value);
    else stepBack(board, gains, slot, ahead[at + 1]!, ahead[at]!);
  }
  const way: number[] = [];
  const used = new Float64Array(board.lines.length);
  let before = -1;
  places.forEach(({ slot, isBegin }, i) => {
    const next = ahead[i + 1]!;
    const to = isBegin ? bestBegin(board, gains, slot, next).to : bestAfter(board, gains, slot, before, next);
    addUsed(board, slot, to, kindOf(board, isBegin, before, to), prices, used);
    way.push(to);
    before = to;
  });
  const bound = ahead[0]![0]! + pricedLeft(board, prices, board.lacking, 0);
  return { prices, bound, ahead, way, used };
}

function bestAfter(board: Board, gains: Float64Array, slot: number, before: number, next: Ahead): number {
  const { choices, kinds, change } = board;
  const count = choices.length;
  let [value, best] = [-Infinity, before];
  for (let to = 0; to < count; to++) {
    const own = gains[(slot * count + to) * kinds + change[before * count + to]!]! + next[to]!;
    if (own > value) [value, best] = [own, to];
  }
  return best;
}

function addUsed(
  { choices, trains, kinds, lineOf, worth, hours, lacking }: Board,
  slot: number,
  to: number,
  kind: number,
  { perHour }: Prices,
  used: Float64Array,
): void {
  const cell = slot * choices.length + to;
  for (let train = 0; train < trains; train++) {
    const line = lineOf[to * trains + train]!;
    if (line < 0 || worth[cell * trains + train]! <= perHour[line]!) continue;
    used[line] = used[line]! + Math.min(lacking[line]!, hours[(cell * kinds + kind) * trains + train]!);
  }
}
