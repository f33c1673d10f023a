/** The meaning of single characters and classes of a pattern under its flags. */
import { charSet, complement, MAX_CODE_POINT, rangesOf, single, union, type CharSet } from './char-set.js';

const DIGIT = charSet([[0x30, 0x39]]);
const WORD = charSet([
  [0x30, 0x39],
  [0x41, 0x5a],
  [0x5f, 0x5f],
  [0x61, 0x7a],
]);
const BLANK = charSet([
  [0x09, 0x0a],
  [0x0c, 0x0d],
  [0x20, 0x20],
]);
const NOT_LF = complement(single(0x0a));
const ANY = charSet([[0, MAX_CODE_POINT]]);

const CLASSES: ReadonlyMap<string, CharSet> = new Map([
  ['d', DIGIT],
  ['w', WORD],
  ['s', BLANK],
]);

/** Supported RE2 flags: `i` and `s`. */
export interface Flags {
  readonly ignoreCase: boolean;
  readonly dotAll: boolean;
}

/** Thrown for constructs that are left to the RE2 engine. */
export class Unsupported extends Error {}

/**
 * The flags after `(?on-off:`.
 *
 * @throws Unsupported for any but `i` and `s`
 */
export function withFlags(flags: Flags, on: string, off: string): Flags {
  if (/[^is]/.test(on) || /[^is]/.test(off)) throw new Unsupported();
  return {
    ignoreCase: (flags.ignoreCase || on.includes('i')) && !off.includes('i'),
    dotAll: (flags.dotAll || on.includes('s')) && !off.includes('s'),
  };
}

/** The set of the dot. */
export function anyOf(flags: Flags): CharSet {
  return flags.dotAll ? ANY : NOT_LF;
}

/** The set of a class such as `\\w` or `\\W`, folded before it is negated. */
export function classOf(char: string, flags: Flags): CharSet | undefined {
  const set = CLASSES.get(char.toLowerCase());
  if (set === undefined) return undefined;
  const folded = foldSet(set, flags);
  return char === char.toLowerCase() ? folded : complement(folded);
}

/** The set of one literal character. */
export function literal(char: string, flags: Flags): CharSet {
  return foldSet(single(char.codePointAt(0) ?? 0), flags);
}

/**
 * ASCII letters in both cases, with the two other characters that fold to `k` and `s` in Unicode: U+212A and U+017F.
 */
export function foldSet(set: CharSet, flags: Flags): CharSet {
  if (!flags.ignoreCase) return set;
  const folded = rangesOf(set).flatMap(([lo, hi]): [number, number][] => {
    if (hi > 0x7f) throw new Unsupported();
    const upper: [number, number] = [Math.max(lo, 0x41), Math.min(hi, 0x5a)];
    const lower: [number, number] = [Math.max(lo, 0x61), Math.min(hi, 0x7a)];
    return [
      [lo, hi],
      [upper[0] + 32, upper[1] + 32],
      [lower[0] - 32, lower[1] - 32],
    ];
  });
  const both = charSet(folded);
  const holds = (codePoint: number): boolean => rangesOf(both).some(([lo, hi]) => codePoint >= lo && codePoint <= hi);
  return union(both, holds(0x6b) ? single(0x212a) : [], holds(0x73) ? single(0x17f) : []);
}
