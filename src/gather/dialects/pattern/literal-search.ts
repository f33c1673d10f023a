import type { LineBlock } from '../../lines/line-block.js';
import { GROUPS, SOUGHT_BYTES, type SoughtLiteral, type TextMemory } from '../../lines/text-memory.js';
import { foldAscii } from './literals.js';
import { emptyHits, type Hits, LiteralScan } from './literal-scan.js';

/** With more, the groups are so full that most bytes may begin a literal. */
const MOST_SOUGHT = 64;
/** Number of bytes of text sampled for byte frequencies: about two hundred lines. */
const SAMPLE_BYTES = 16_384;
/** Size of a table of four consecutive bytes. */
const TABLE = 65_536;
const NOWHERE = new Int32Array(0);

/**
 * Finds many literals in blocks of lines, ignoring the case of ASCII letters: with SIMD if the block's memory supports
 * it, else with `LiteralScan`.
 *
 * Searches for four bytes of each literal, the rarest in a sample of the text. For each half of a byte, a table of
 * sixteen entries gives the candidate groups among eight groups of literals; positions that fit one group in four
 * consecutive bytes are compared letter by letter (after the matcher "Teddy" of the library Hyperscan; known from
 * memory).
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
   * Every occurrence in the block: a byte of it, in order of position, and the literal's index. Valid until the next
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

/** Literals grouped by similar bytes, so that the tables admit few false positives. */
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

/** Start of the literal's four rarest consecutive bytes in the sample; 0 if it has no four. */
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

/** Four bytes as an index of the table (multiplicative hashing: Knuth, The Art of Computer Programming 3, 6.4). */
function placeOf(bytes: Buffer, i: number): number {
  const word = bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24);
  return Math.imul(word, 0x9e3779b1) >>> 16;
}
