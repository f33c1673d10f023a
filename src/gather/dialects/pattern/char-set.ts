/** A set of code points as sorted, disjoint, inclusive ranges, flat: `[lo, hi, lo, hi, …]`. */
export type CharSet = readonly number[];

/** The last code point of Unicode. */
export const MAX_CODE_POINT = 0x10ffff;

/** The set of the given ranges, which may overlap and be in any order. */
export function charSet(ranges: readonly (readonly [number, number])[]): CharSet {
  const sorted = ranges.filter(([lo, hi]) => lo <= hi).sort((a, b) => a[0] - b[0]);
  const out: number[] = [];
  for (const [lo, hi] of sorted) {
    const last = out[out.length - 1];
    if (last !== undefined && lo <= last + 1) out[out.length - 1] = Math.max(last, hi);
    else out.push(lo, hi);
  }
  return out;
}

/** The set of one code point. */
export function single(codePoint: number): CharSet {
  return [codePoint, codePoint];
}

/** The set as pairs of first and last code point. */
export function rangesOf(set: CharSet): [number, number][] {
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < set.length; i += 2) out.push([set[i] ?? 0, set[i + 1] ?? 0]);
  return out;
}

/** The union of the sets. */
export function union(...sets: readonly CharSet[]): CharSet {
  return charSet(sets.flatMap(rangesOf));
}

/** The complement of the set. */
export function complement(set: CharSet): CharSet {
  const out: number[] = [];
  let next = 0;
  for (const [lo, hi] of rangesOf(set)) {
    if (lo > next) out.push(next, lo - 1);
    next = hi + 1;
  }
  if (next <= MAX_CODE_POINT) out.push(next, MAX_CODE_POINT);
  return out;
}

/** Whether the two are disjoint. */
export function disjoint(a: CharSet, b: CharSet): boolean {
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const [aLo = 0, aHi = 0] = [a[i], a[i + 1]];
    const [bLo = 0, bHi = 0] = [b[j], b[j + 1]];
    if (aHi < bLo) i += 2;
    else if (bHi < aLo) j += 2;
    else return false;
  }
  return true;
}

/** The number of code points in the set. */
export function sizeOf(set: CharSet): number {
  return rangesOf(set).reduce((sum, [lo, hi]) => sum + hi - lo + 1, 0);
}
