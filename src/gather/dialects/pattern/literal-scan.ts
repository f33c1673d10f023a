import { foldAscii } from './literals.js';

/** Positions of literals: `positions[i]` is a byte of an occurrence of literal `ids[i]`, in order of position. */
export interface Hits {
  positions: Int32Array;
  ids: Int32Array;
  count: number;
}

/** Hits to be filled by a scan. */
export function emptyHits(): Hits {
  return { positions: new Int32Array(1024), ids: new Int32Array(1024), count: 0 };
}

/**
 * Finds many literals in bytes at once, ignoring the case of ASCII letters. Looks at the last two bytes of a
 * window as long as the shortest literal and skips ahead by as much as those two allow (S. Wu and U. Manber,
 * A Fast Algorithm for Multi-Pattern Searching, University of Arizona TR-94-17, 1994).
 */
export class LiteralScan {
  private readonly literals: readonly Buffer[];
  private readonly window: number;
  private readonly shifts: Uint8Array;
  /** Literals by the two bytes at their window's end; literal numbers, chained. */
  private readonly firstByPair = new Int16Array(PAIRS).fill(-1);
  private readonly nextInPair: Int16Array;

  /** @param literals at least one, each of two bytes or more, in lower case */
  constructor(literals: readonly string[]) {
    this.literals = literals.map((literal) => Buffer.from(foldAscii(literal), 'utf8'));
    this.window = Math.min(255, ...this.literals.map((literal) => literal.length));
    this.shifts = new Uint8Array(PAIRS).fill(this.window - 1);
    this.nextInPair = new Int16Array(literals.length).fill(-1);
    for (let id = this.literals.length - 1; id >= 0; id--) this.enter(id);
  }

  private enter(id: number): void {
    const literal = this.literals[id] ?? Buffer.alloc(0);
    for (let end = 1; end < this.window; end++) {
      const shift = this.window - 1 - end;
      for (const pair of casesOfPair(literal[end - 1] ?? 0, literal[end] ?? 0)) {
        if (shift < (this.shifts[pair] ?? 0)) this.shifts[pair] = shift;
      }
    }
    const pair = hashOf(literal[this.window - 2] ?? 0, literal[this.window - 1] ?? 0);
    this.nextInPair[id] = this.firstByPair[pair] ?? -1;
    this.firstByPair[pair] = id;
  }

  /** Fills `hits` with every occurrence in the bytes. */
  scan(bytes: Uint8Array, hits: Hits): void {
    hits.count = 0;
    const { shifts, window } = this;
    const length = bytes.length;
    let end = window - 1;
    while (end < length) {
      const shift = shifts[hashOf(bytes[end - 1]!, bytes[end]!)]!;
      if (shift > 0) {
        end += shift;
        continue;
      }
      const pair = hashOf(fold(bytes[end - 1]!), fold(bytes[end]!));
      for (let id = this.firstByPair[pair] ?? -1; id >= 0; id = this.nextInPair[id] ?? -1) {
        const start = end - window + 1;
        if (this.stands(id, bytes, start)) addHit(hits, start, id);
      }
      end++;
    }
  }

  private stands(id: number, bytes: Uint8Array, start: number): boolean {
    const literal = this.literals[id];
    if (literal === undefined || start + literal.length > bytes.length) return false;
    for (let i = 0; i < literal.length; i++) {
      if (fold(bytes[start + i] ?? 0) !== literal[i]) return false;
    }
    return true;
  }
}

/** Pairs share a table small enough for the processor's first cache; those of ASCII letters hardly ever collide. */
const PAIRS = 8192;

function hashOf(first: number, second: number): number {
  return ((first << 5) ^ second) & (PAIRS - 1);
}

function fold(byte: number): number {
  return byte >= 0x41 && byte <= 0x5a ? byte + 32 : byte;
}

/** The hashes of the pair in every mix of cases. */
function casesOfPair(a: number, b: number): number[] {
  const cases = (byte: number): number[] => (byte >= 0x61 && byte <= 0x7a ? [byte, byte - 32] : [byte]);
  return cases(a).flatMap((first) => cases(b).map((second) => hashOf(first, second)));
}

function addHit(hits: Hits, position: number, id: number): void {
  if (hits.count === hits.positions.length) {
    hits.positions = doubled(hits.positions);
    hits.ids = doubled(hits.ids);
  }
  hits.positions[hits.count] = position;
  hits.ids[hits.count++] = id;
}

function doubled(column: Int32Array): Int32Array {
  const larger = new Int32Array(column.length * 2);
  larger.set(column);
  return larger;
}
