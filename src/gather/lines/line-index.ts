/** Where the lines of a buffer end; reused from block to block. */
export interface LineIndex {
  /** Index of each line feed; grown as needed. */
  ends: Int32Array;
  count: number;
}

const LF = 0x0a;
const CR = 0x0d;

/**
 * Finds every line feed. Reads sixteen bytes at a time: a word of four contains a line feed exactly when the zero-byte
 * test, (x − 0x01010101) & ~x & 0x80808080, is not zero for the word xor four line feeds (Warren, Hacker's Delight, 2nd
 * ed., section 6-1).
 */
export function indexLines(bytes: Uint8Array, index: LineIndex): void {
  index.count = 0;
  const aligned = Math.min(bytes.length, (4 - (bytes.byteOffset % 4)) % 4);
  addFeeds(bytes, 0, aligned, index);
  if (aligned === bytes.length) return;
  const words = new Int32Array(bytes.buffer, bytes.byteOffset + aligned, (bytes.length - aligned) >> 2);
  const whole = words.length & ~3;
  for (let w = 0; w < whole; w += 4) {
    const a = words[w]! ^ 0x0a0a0a0a;
    const b = words[w + 1]! ^ 0x0a0a0a0a;
    const c = words[w + 2]! ^ 0x0a0a0a0a;
    const d = words[w + 3]! ^ 0x0a0a0a0a;
    const marks = ((a - 0x01010101) & ~a) | ((b - 0x01010101) & ~b) | ((c - 0x01010101) & ~c) | ((d - 0x01010101) & ~d);
    if ((marks & 0x80808080) !== 0) addFeeds(bytes, aligned + w * 4, aligned + w * 4 + 16, index);
  }
  addFeeds(bytes, aligned + whole * 4, bytes.length, index);
}

function addFeeds(bytes: Uint8Array, from: number, to: number, index: LineIndex): void {
  for (let i = from; i < to; i++) {
    if (bytes[i] !== LF) continue;
    if (index.count === index.ends.length) index.ends = doubled(index.ends);
    index.ends[index.count++] = i;
  }
}

function doubled(ends: Int32Array): Int32Array {
  const larger = new Int32Array(ends.length * 2);
  larger.set(ends);
  return larger;
}

/** Lines that hold more than a line ending, and the length of the longest with its ending. */
export function measureLines(bytes: Uint8Array, { ends, count }: LineIndex): { withText: number; longest: number } {
  let withText = 0;
  let longest = 0;
  let start = 0;
  for (let i = 0; i < count; i++) {
    const end = ends[i]!;
    const length = end - start;
    if (length > 1 || (length === 1 && bytes[start] !== CR)) withText++;
    if (length >= longest) longest = length + 1;
    start = end + 1;
  }
  return { withText, longest };
}
