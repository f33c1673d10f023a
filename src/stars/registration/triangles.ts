/**
 * Triangles of stars by their shape: the ratios of their sides do not change when a field is shifted, turned or scaled
 * (Groth 1986, AJ 91, 1244; Valdes et al. 1995, PASP 107, 1119).
 */
import type { StarList } from './star-list.js';

/** Triangles of one list; corners stand opposite the longest, the middle and the shortest side. */
export interface Triangles {
  readonly list: StarList;
  readonly count: number;
  /** Longest side, px. */
  readonly longest: Float64Array;
  /** Middle and shortest side in parts of the longest. */
  readonly middle: Float64Array;
  readonly shortest: Float64Array;
  /** 1 where the corners run from +x to +y, −1 the other way: a mirror turns it over. */
  readonly turn: Int8Array;
  /** Three star indices each. */
  readonly corners: Int32Array;
}

/** Shorter triangles are too coarse in direction; flatter ones match anything (Groth 1986 sets 10). */
const SHORTEST_LONGEST_PX = 40;
const MOST_RATIO = 10;
/** Sides that differ by less could change places through noise, px. */
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
    const near = Array.from({ length: n }, (_, i) => i)
      .filter((i) => i !== star)
      .map((i) => ({ i, square: (list.x[i]! - list.x[star]!) ** 2 + (list.y[i]! - list.y[star]!) ** 2 }))
      .sort((a, b) => a.square - b.square || a.i - b.i)
      .slice(0, neighbours);
    for (const [at, p] of near.entries()) {
      for (const q of near.slice(at + 1)) {
        const [i, j, k] = [star, p.i, q.i].sort((a, b) => a - b) as [number, number, number];
        const name = (i * n + j) * n + k;
        if (!seen.has(name)) found.add(i, j, k);
        seen.add(name);
      }
    }
  }
  return found.finish();
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
    let a = Math.hypot(x[j]! - x[k]!, y[j]! - y[k]!);
    let b = Math.hypot(x[i]! - x[k]!, y[i]! - y[k]!);
    let c = Math.hypot(x[i]! - x[j]!, y[i]! - y[j]!);
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
    this.corners.set([p, q, r], 3 * at);
  }

  finish(): Triangles {
    const { list, count, longest, middle, shortest, turn, corners } = this;
    return { list, count, longest, middle, shortest, turn, corners };
  }
}

/** Triangles in the order of their middle side, to look alike ones up. */
export function sortByShape(triangles: Triangles): Triangles {
  const order = Uint32Array.from({ length: triangles.count }, (_, i) => i);
  order.sort((p, q) => triangles.middle[p]! - triangles.middle[q]! || p - q);
  const corners = new Int32Array(3 * triangles.count);
  for (let i = 0; i < order.length; i++) {
    const from = 3 * order[i]!;
    corners.set(triangles.corners.subarray(from, from + 3), 3 * i);
  }
  return {
    list: triangles.list,
    count: triangles.count,
    longest: Float64Array.from(order, (i) => triangles.longest[i]!),
    middle: Float64Array.from(order, (i) => triangles.middle[i]!),
    shortest: Float64Array.from(order, (i) => triangles.shortest[i]!),
    turn: Int8Array.from(order, (i) => triangles.turn[i]!),
    corners,
  };
}

/** What may differ between two triangles of the same stars. */
export interface Likeness {
  /** Error of a side, px, and in parts of the longest (optics bend a field a little). */
  readonly sidePx: number;
  readonly sideShare: number;
  /** Longest side in the sorted triangles for one px of the other, least and most. */
  readonly scale: { readonly least: number; readonly most: number };
  readonly mirrored: 'no' | 'yes' | 'either';
}

/** Calls `visit(t, s)` for each sorted triangle s that is like triangle t of the others, until it answers `true`. */
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
