import type { LineBlock } from '../../lines/line-block.js';
import { GROUPS, SOUGHT_BYTES, type SoughtLiteral, type TextMemory } from '../../lines/text-memory.js';
import { foldAscii } from './literals.js';
import { emptyHits, type Hits, LiteralScan } from './literal-scan.js';

/** Of more, the groups are so full that most bytes may begin a literal. */
const MOST_SOUGHT = 64;
/** Bytes of a text that say how frequent its bytes are: some two hundred lines. */
const SAMPLE_BYTES = 16_384;
/** Numbers of a table of four bytes in a row. */
const TABLE = 65_536;
const NOWHERE = new Int32Array(0);

/**
 * Finds many literals in blocks of lines, ignoring the case of ASCII letters: by vectors where the block's memory has
 * them, else by `LiteralScan`.
 *
 * Of each literal four bytes are sought, those that a first look at the text finds least often. A table of sixteen for
 * either half of a byte says to which of eight groups of literals it may belong; what belongs to one in four places in
 * a row is compared letter by letter (after the matcher "Teddy" of the library Hyperscan; known from memory).
 */
export class LiteralSearch {
  private readonly bytes: readonly Buffer[];
  private groups: readonly (readonly SoughtLiteral[])[] | null = null;
  private scan: LiteralScan | null = null;
  private readonly scanned = emptyHits();
  private readonly found: Hits = { positions: NOWHERE, ids: NOWHERE, count: 0 };

  /** @param literals at least one, each of two bytes or more, in lower case */
  constructor(private readonly literals: readonly string[]) {
    this.bytes = literals.map((literal) => Buffer.from(foldAscii(literal), 'utf8'));
  }

  /**
   * Every occurrence in the block: a byte of it, in order of position, and the literal's index. Good until the next
   * call.
   */
  in({ bytes, memory }: LineBlock): Hits {
    if (memory !== null && this.literals.length <= MOST_SOUGHT) {
      const count = this.findIn(memory, bytes);
      if (count >= 0) {
        this.found.positions = memory.positions;
        this.found.ids = memory.ids;
        this.found.count = count;
        return this.found;
      }
    }
    this.scan ??= new LiteralScan(this.literals);
    this.scan.scan(bytes, this.scanned);
    return this.scanned;
  }

  private findIn(memory: TextMemory, bytes: Buffer): number {
    if (memory.searcher !== this) {
      this.groups ??= inGroups(this.bytes, bytes.subarray(0, SAMPLE_BYTES));
      memory.seek(this, this.groups);
    }
    return memory.find(bytes.length);
  }
}

/** Literals whose sought bytes are alike in one group, so that the tables admit little else. */
function inGroups(literals: readonly Buffer[], sample: Buffer): SoughtLiteral[][] {
  const times = new Uint32Array(TABLE);
  for (let i = 0; i + SOUGHT_BYTES <= sample.length; i++) times[placeOf(sample, i)]!++;
  const sought = literals.map((bytes, id) => ({ id, bytes, from: rarest(bytes, times) }));
  sought.sort((a, b) => a.bytes.compare(b.bytes, b.from, endOf(b), a.from, endOf(a)));
  const groups: SoughtLiteral[][] = Array.from({ length: GROUPS }, () => []);
  sought.forEach((literal, i) => groups[Math.floor((i * GROUPS) / sought.length)]?.push(literal));
  return groups;
}

function endOf({ bytes, from }: SoughtLiteral): number {
  return Math.min(from + SOUGHT_BYTES, bytes.length);
}

/** Where the four bytes of a literal begin that stand least often in the sample; 0 where it has no four. */
function rarest(literal: Buffer, times: Uint32Array): number {
  let best = 0;
  let least = Infinity;
  for (let from = 0; from + SOUGHT_BYTES <= literal.length; from++) {
    const count = times[placeOf(literal, from)] ?? 0;
    if (count < least) {
      least = count;
      best = from;
    }
  }
  return best;
}

/** Four bytes as a number of the table (multiplicative hashing: Knuth, The Art of Computer Programming 3, 6.4). */
function placeOf(bytes: Buffer, i: number): number {
  const word = bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24);
  return Math.imul(word, 0x9e3779b1) >>> 16;
}
