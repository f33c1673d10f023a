/**
 * Triangles of stars by their shape: the ratios of their sides are invariant under shift, rotation and scale (Groth
 * 1986, AJ 91, 1244; Valdes et al. 1995, PASP 107, 1119).
 */
import type { StarList } from './star-list.js';

/** Triangles of one list; corners are opposite the longest, the middle and the shortest side. */
export interface Triangles {
  readonly list: StarList;
  readonly count: number;
  /** Longest side, px. */
  readonly longest: Float64Array;
  /** Middle and shortest side as fractions of the longest. */
  readonly middle: Float64Array;
  readonly shortest: Float64Array;
  /** 1 if the corners run from +x to +y, −1 otherwise: a mirror inverts it. */
  readonly turn: Int8Array;
  /** Three star indices each. */
  readonly corners: Int32Array;
}

/** Shorter triangles are too coarse in direction; flatter ones match anything (Groth 1986 sets 10). */
const SHORTEST_LONGEST_PX = 40;
const MOST_RATIO = 10;
/** Sides that differ by less could swap ranks through noise, px. */
const APART_PX = 3;

/** All triangles among the brightest, those of the brightest first. */
export function allTriangles(list: StarList, most: number): Triangles {
  const n = Math.min(list.count, most);
  const found = new Builder(list, Math.max(0, (n * (n - 1) * (n - 2)) / 6));
  for (let k = 2; k < n; k++) for (let j = 1; j < k; j++) for (let i = 0; i < j; i++) found.add(i, j, k);
  return found.finish();
}

/** Triangles of each of the brightest with pairs of its nearest neighbours among them. */
export function neighbourTriangles(list: StarList, most: number, neighbours: number): Triangles {
  const n = Math.min(list.count, most);
  const found = new Builder(list, (n * neighbours * (neighbours - 1)) / 2);
  const seen = new Set<number>();
  for (let star = 0; star < n; star++) {
    const near = nearestOf(list, n, star, neighbours);
    for (const [at, p] of near.entries()) {
      for (const q of near.slice(at + 1)) {
        const [i, k] = [Math.min(star, p, q), Math.max(star, p, q)];
        const j = star + p + q - i - k;
        const name = (i * n + j) * n + k;
        if (!seen.has(name)) found.add(i, j, k);
        seen.add(name);
      }
    }
  }
  return found.finish();
}

/** The nearest of the `n` brightest to one of them, nearest first; of two equally near the brighter one. */
function nearestOf({ x, y }: StarList, n: number, star: number, most: number): number[] {
  const near: number[] = [];
  const squares: number[] = [];
  for (let i = 0; i < n; i++) {
    if (i === star) continue;
    const square = (x[i]! - x[star]!) ** 2 + (y[i]! - y[star]!) ** 2;
    if (near.length === most && square >= squares[most - 1]!) continue;
    let at = Math.min(near.length, most - 1);
    for (; at > 0 && squares[at - 1]! > square; at--) {
      near[at] = near[at - 1]!;
      squares[at] = squares[at - 1]!;
    }
    near[at] = i;
    squares[at] = square;
  }
  return near;
}

class Builder {
  private count = 0;
  private readonly longest: Float64Array;
  private readonly middle: Float64Array;
  private readonly shortest: Float64Array;
  private readonly turn: Int8Array;
  private readonly corners: Int32Array;

  constructor(
    private readonly list: StarList,
    room: number,
  ) {
    this.longest = new Float64Array(room);
    this.middle = new Float64Array(room);
    this.shortest = new Float64Array(room);
    this.turn = new Int8Array(room);
    this.corners = new Int32Array(3 * room);
  }

  add(i: number, j: number, k: number): void {
    const { x, y } = this.list;
    // Each side carries the corner opposite to it; three comparisons sort them.
    let p = i;
    let q = j;
    let r = k;
    let a = lengthOf(x[j]! - x[k]!, y[j]! - y[k]!);
    let b = lengthOf(x[i]! - x[k]!, y[i]! - y[k]!);
    let c = lengthOf(x[i]! - x[j]!, y[i]! - y[j]!);
    if (a < b) [a, b, p, q] = [b, a, q, p];
    if (b < c) [b, c, q, r] = [c, b, r, q];
    if (a < b) [a, b, p, q] = [b, a, q, p];
    if (a < SHORTEST_LONGEST_PX || a > MOST_RATIO * c || a - b < APART_PX || b - c < APART_PX) return;
    const at = this.count++;
    this.longest[at] = a;
    this.middle[at] = b / a;
    this.shortest[at] = c / a;
    const area = (x[q]! - x[p]!) * (y[r]! - y[p]!) - (y[q]! - y[p]!) * (x[r]! - x[p]!);
    this.turn[at] = area < 0 ? -1 : 1;
    this.corners[3 * at] = p;
    this.corners[3 * at + 1] = q;
    this.corners[3 * at + 2] = r;
  }

  finish(): Triangles {
    const { list, count, longest, middle, shortest, turn, corners } = this;
    return { list, count, longest, middle, shortest, turn, corners };
  }
}

/** Length of a vector on a sensor. Math.hypot takes far longer, to avoid overflow that cannot occur here. */
function lengthOf(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}

/** Triangles sorted by their middle side, to find similar ones. */
export function sortByShape(triangles: Triangles): Triangles {
  const { list, count } = triangles;
  const order = orderOf(triangles.middle.subarray(0, count));
  const corners = new Int32Array(3 * count);
  for (let i = 0; i < count; i++)
    for (let corner = 0; corner < 3; corner++) corners[3 * i + corner] = triangles.corners[3 * order[i]! + corner]!;
  return {
    list,
    count,
    longest: taken(triangles.longest, order),
    middle: taken(triangles.middle, order),
    shortest: taken(triangles.shortest, order),
    turn: taken(triangles.turn, order),
    corners,
  };
}

function taken<T extends Float64Array | Int8Array>(values: T, order: Uint32Array): T {
  const out = values.slice(0, order.length) as T;
  for (let i = 0; i < order.length; i++) out[i] = values[order[i]!]!;
  return out;
}

/** Number of intervals of 0…1 for the initial sort, with space for indices: 53 bits together. */
const PARTS = 2 ** 31;
const PLACES = 2 ** 22;

/**
 * The indices of values between 0 and 1 in sorted order; stable. Plain numbers are sorted many times faster than with a
 * comparison function: each value is rounded down, its index appended, and remaining inversions smaller than an
 * interval are then swapped.
 */
function orderOf(values: Float64Array): Uint32Array {
  if (values.length > PLACES) return Uint32Array.from(values.keys()).sort((p, q) => values[p]! - values[q]! || p - q);
  // Loops: typed array methods with callbacks take several times as long.
  const sorted = new Float64Array(values.length);
  for (let place = 0; place < sorted.length; place++)
    sorted[place] = Math.floor(values[place]! * (PARTS - 1)) * PLACES + place;
  sorted.sort();
  const order = new Uint32Array(sorted.length);
  for (let i = 0; i < order.length; i++) order[i] = sorted[i]! % PLACES;
  for (let i = 1; i < order.length; i++) {
    const place = order[i]!;
    let at = i;
    for (; at > 0 && values[order[at - 1]!]! > values[place]!; at--) order[at] = order[at - 1]!;
    order[at] = place;
  }
  return order;
}

/** What may differ between two triangles of the same stars. */
export interface Likeness {
  /** Error of a side, px, and as a fraction of the longest (optics distort a field a little). */
  readonly sidePx: number;
  readonly sideShare: number;
  /** Longest side in the sorted triangles per px of the other, minimum and maximum. */
  readonly scale: { readonly least: number; readonly most: number };
  readonly mirrored: 'no' | 'yes' | 'either';
}

/**
 * Calls `visit(t, s)` for each sorted triangle s that is similar to triangle t of the others, until it returns `true`.
 */
export function eachLike(
  sorted: Triangles,
  others: Triangles,
  likeness: Likeness,
  visit: (t: number, s: number) => boolean,
): void {
  for (let t = 0; t < others.count; t++) {
    const shortest = others.shortest[t]!;
    const middle = others.middle[t]!;
    const longest = others.longest[t]!;
    const apart = likeness.sideShare + likeness.sidePx / longest;
    for (let s = firstAbove(sorted.middle, middle - apart); s < sorted.count; s++) {
      if (sorted.middle[s]! > middle + apart) break;
      if (Math.abs(sorted.shortest[s]! - shortest) > apart) continue;
      const scale = sorted.longest[s]! / longest;
      if (scale < likeness.scale.least || scale > likeness.scale.most) continue;
      const isTurned = sorted.turn[s] !== others.turn[t];
      if (likeness.mirrored !== 'either' && isTurned !== (likeness.mirrored === 'yes')) continue;
      if (visit(t, s)) return;
    }
  }
}

function firstAbove(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
