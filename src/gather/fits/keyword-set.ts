/** The set of wanted cards: keywords identified by the two 32-bit words of their eight bytes. */
import type { CardValue } from './card-values.js';
import { HeaderLayouts } from './header-layouts.js';

/** Clears the bit in which ASCII letters differ in case; spaces become zero, digits and signs stay distinct. */
const FOLD = ~0x20202020;
const KEYWORD_BYTES = 8;

/** Entries in every set: END, and HIERARCH, which represents all names of that convention. */
export const END = 0;
export const HIERARCH = 1;
export const NOT_WANTED = -1;
/** Suffix of a keyword: the comment of its card. No header keyword contains it. */
export const REMARK = '/';

/** One keyword's bytes, and the same memory as words. */
const scratch = Buffer.from(new ArrayBuffer(KEYWORD_BYTES));
const scratchWords = new Int32Array(scratch.buffer);

/**
 * A numbered set of FITS keywords, quick to test against card bytes.
 * Names of more than eight characters, or with spaces, follow the HIERARCH convention.
 */
export class KeywordSet {
  /** Keywords by number. */
  readonly names: readonly string[];
  /** For each keyword the number under which its card's comment is kept; `NOT_WANTED` if not. */
  readonly remarks: Int16Array;
  /** One `undefined` for each keyword: what the values of a header are copied from, for copies are quick. */
  readonly noValues: readonly (CardValue | undefined)[];
  private readonly numbers: ReadonlyMap<string, number>;
  private readonly anyHierarchical: boolean;
  /** Open addressing: number plus one, zero where free. */
  private readonly slots: Uint16Array;
  private readonly keys: Int32Array;
  /** The headers last read with the set. */
  readonly layouts = new HeaderLayouts();

  /**
   * @param keywords names in the form of `normalKeyword`, with the suffix `REMARK` for a comment; duplicates count once
   */
  constructor(keywords: Iterable<string>) {
    const names = [...new Set(['END', 'HIERARCH', ...keywords])];
    this.names = names;
    this.noValues = names.map(() => undefined);
    this.numbers = new Map(names.map((name, number) => [name, number]));
    this.remarks = Int16Array.from(names, (name) => this.numbers.get(name + REMARK) ?? NOT_WANTED);
    this.anyHierarchical = names.some(isHierarchical);
    this.keys = new Int32Array(names.length * 2);
    this.slots = new Uint16Array(2 ** Math.ceil(Math.log2(names.length * 4)));
    names.forEach((name, number) => {
      if (isHierarchical(name) || name.endsWith(REMARK)) return;
      const [first, second] = keywordWords(name);
      this.keys[number * 2] = first;
      this.keys[number * 2 + 1] = second;
      let slot = slotOf(first, second, this.slots.length);
      while (this.slots[slot] !== 0) slot = (slot + 1) & (this.slots.length - 1);
      this.slots[slot] = number + 1;
    });
  }

  /** The number of the keyword spelled by these eight bytes, or a negative number when it is not wanted. */
  find(firstWord: number, secondWord: number): number {
    const first = firstWord & FOLD;
    const second = secondWord & FOLD;
    const { slots, keys } = this;
    let slot = slotOf(first, second, slots.length);
    for (let entry = slots[slot] as number; entry !== 0; entry = slots[slot] as number) {
      if (keys[entry * 2 - 2] === first && keys[entry * 2 - 1] === second) {
        return entry - 1 === HIERARCH && !this.anyHierarchical ? NOT_WANTED : entry - 1;
      }
      slot = (slot + 1) & (slots.length - 1);
    }
    return NOT_WANTED;
  }

  /** The number of a keyword by its name in upper case, or `undefined` when it is not wanted. */
  numberOf(name: string): number | undefined {
    return this.numbers.get(name);
  }
}

/** Upper case, single spaces, and no leading `HIERARCH`: how keywords are named everywhere here. */
export function normalKeyword(name: string): string {
  return name
    .trim()
    .toUpperCase()
    .replace(/\s+/g, ' ')
    .replace(/^HIERARCH /, '');
}

/** The two words of a keyword's eight bytes, in this machine's byte order and case-folded. */
export function keywordWords(name: string): readonly [number, number] {
  scratch.write(name.padEnd(KEYWORD_BYTES), 'latin1');
  return [(scratchWords[0] as number) & FOLD, (scratchWords[1] as number) & FOLD];
}

/** Whether two card words spell a keyword, in either case. */
export function spells(firstWord: number, secondWord: number, keyword: readonly [number, number]): boolean {
  return (firstWord & FOLD) === keyword[0] && (secondWord & FOLD) === keyword[1];
}

function isHierarchical(name: string): boolean {
  return !name.endsWith(REMARK) && (name.length > KEYWORD_BYTES || name.includes(' '));
}

function slotOf(first: number, second: number, slots: number): number {
  const mixed = Math.imul(first, 0x9e3779b1) ^ Math.imul(second, 0x85ebca6b);
  return (mixed ^ (mixed >>> 15)) & (slots - 1);
}
