/**
 * Memory for the text of a log, with a WebAssembly module that looks through it sixteen bytes at a time
 * (text-scan.wat): in a third of the time of the same loops in JavaScript.
 */
import { TEXT_SCAN } from './text-scan-code.js';

/** Memory layout, bytes: tables for the search, the text, its line ends, the hits. */
const PAGE = 65_536;
const TEXT = PAGE;
/** The longest line, plus one read chunk, in any encoding. */
const TEXT_BYTES = 2 * 2 ** 20;
/** What is looked at beyond the end of the text. */
const SLACK = PAGE;
const ENDS = TEXT + TEXT_BYTES + SLACK;
/** Every byte may be a line feed. Memory that is never written to costs nothing. */
const ENDS_BYTES = 4 * TEXT_BYTES;
const POSITIONS = ENDS + ENDS_BYTES;
const MOST_HITS = 65_536;
const IDS = POSITIONS + 4 * MOST_HITS;
const PAGES = (IDS + 4 * MOST_HITS) / PAGE;

/** Tables of a search (text-scan.wat, `find`): halves of bytes, the groups' first literals; then the literals. */
const HALVES = 32;
const FIRST_OF_GROUPS = 128;
const LITERALS = 256;
const NUMBERS_PER_LITERAL = 5;
/** Bytes in a row by which literals are sought, and groups of literals: a bit each. */
export const SOUGHT_BYTES = 4;
export const GROUPS = 8;

/** A literal of a search, in lower case. */
export interface SoughtLiteral {
  readonly id: number;
  readonly bytes: Uint8Array;
  /** Which of its bytes is the first of those by which it is sought. */
  readonly from: number;
}

/** The module's exports. */
interface TextScan {
  readonly lines: (text: number, length: number, ends: number) => number;
  readonly find: (
    text: number,
    length: number,
    literals: number,
    positions: number,
    ids: number,
    most: number,
  ) => number;
  readonly withText: WebAssembly.Global;
  readonly longest: WebAssembly.Global;
  readonly isAscii: WebAssembly.Global;
  readonly hasZero: WebAssembly.Global;
  readonly hasEscape: WebAssembly.Global;
}

/** Memory for one text at a time. */
export class TextMemory {
  /** Offset of the text. */
  readonly text: Buffer;
  /** Index of each line feed, after `lines`. */
  readonly ends: Int32Array;
  /** What `find` found: index of a byte of the literal, and its id. */
  readonly positions: Int32Array;
  readonly ids: Int32Array;
  /** Whose search the tables are for. */
  searcher: object | null = null;
  private readonly tables: DataView;
  private readonly scan: TextScan;

  constructor(module: WebAssembly.Module) {
    const memory = new WebAssembly.Memory({ initial: PAGES });
    this.scan = new WebAssembly.Instance(module, { env: { memory } }).exports as unknown as TextScan;
    this.text = Buffer.from(memory.buffer, TEXT, TEXT_BYTES);
    this.ends = new Int32Array(memory.buffer, ENDS, ENDS_BYTES / 4);
    this.positions = new Int32Array(memory.buffer, POSITIONS, MOST_HITS);
    this.ids = new Int32Array(memory.buffer, IDS, MOST_HITS);
    this.tables = new DataView(memory.buffer, 0, TEXT);
  }

  /** Finds the line feeds of the first `length` bytes. @returns how many there are */
  lines(length: number): number {
    return this.scan.lines(TEXT, length, ENDS);
  }

  /** Additional results of the last `lines`. */
  get measure() {
    const { withText, longest, isAscii, hasZero, hasEscape } = this.scan;
    return {
      withText: withText.value,
      longest: longest.value,
      isAscii: isAscii.value === 1,
      hasZero: hasZero.value === 1,
      /** The byte that codes for terminals begin with. */
      hasEscape: hasEscape.value === 1,
    };
  }

  /**
   * Finds literals of the tables in the first `length` bytes. @returns their count; −1 if there is no space for them
   */
  find(length: number): number {
    return this.scan.find(TEXT, length, LITERALS, POSITIONS, IDS, MOST_HITS);
  }

  /** Makes the tables for a search. */
  seek(searcher: object, groups: readonly (readonly SoughtLiteral[])[]): void {
    this.searcher = searcher;
    new Uint8Array(this.tables.buffer, 0, LITERALS).fill(0);
    const count = groups.reduce((sum, { length }) => sum + length, 0);
    let number = 0;
    let at = LITERALS + count * NUMBERS_PER_LITERAL * 4;
    groups.forEach((literals, group) => {
      this.setNumber(FIRST_OF_GROUPS + 4 * group, literals.length === 0 ? -1 : number);
      literals.forEach(({ id, bytes, from }, i) => {
        const next = i === literals.length - 1 ? -1 : number + 1;
        const entry = LITERALS + number * NUMBERS_PER_LITERAL * 4;
        [at, bytes.length, from, next, id].forEach((value, k) => this.setNumber(entry + 4 * k, value));
        new Uint8Array(this.tables.buffer, at, bytes.length).set(bytes);
        at += bytes.length;
        number++;
        for (let k = 0; k < SOUGHT_BYTES; k++) this.admit(k, bytes[from + k], group);
      });
    });
  }

  /** Enters a byte in the tables of its place; `undefined`: any byte, of a literal that is shorter. */
  private admit(place: number, byte: number | undefined, group: number): void {
    const lower = HALVES * place;
    const enter = (at: number): void => this.tables.setUint8(at, this.tables.getUint8(at) | (1 << group));
    if (byte === undefined) {
      for (let half = 0; half < HALVES; half++) enter(lower + half);
      return;
    }
    const isLetter = byte >= 0x61 && byte <= 0x7a;
    for (const one of isLetter ? [byte, byte - 0x20] : [byte]) {
      enter(lower + (one & 15));
      enter(lower + 16 + (one >> 4));
    }
  }

  private setNumber(at: number, value: number): void {
    this.tables.setInt32(at, value, true);
  }
}

/** Memories that nobody uses at the moment: the addresses reserved for each are too many to be taken for every log. */
const spare: TextMemory[] = [];
let compiled: WebAssembly.Module | null | undefined;

/** A memory to be given back after use; `null` where the machine, or Node as it was started, has none to give. */
export function takeTextMemory(): TextMemory | null {
  const own = spare.pop();
  if (own !== undefined) return own;
  try {
    if (compiled === undefined) compiled = new WebAssembly.Module(Buffer.from(TEXT_SCAN, 'base64'));
    return compiled === null ? null : new TextMemory(compiled);
  } catch {
    // Without vector instructions, WebAssembly (`--jitless`) or room for addresses: the loops in JavaScript do.
    compiled = null;
    return null;
  }
}

/** Returns a memory to the pool; its contents are discarded. */
export function giveBack(memory: TextMemory | null): void {
  if (memory === null) return;
  memory.searcher = null;
  spare.push(memory);
}
