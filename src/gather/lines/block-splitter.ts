import { itemAt } from '../../model/collections.js';
import { isAscii, isUtf8 } from 'node:buffer';
import { transcoder } from './encoding.js';
import type { LineBlock } from './line-block.js';
import { indexLines, measureLines, type LineIndex } from './line-index.js';
import { withoutTerminalCodes } from './terminal-codes.js';
import type { TextMemory } from './text-memory.js';
import type { WarningTally } from './warning-tally.js';

/** A line longer than this costs itself: it is left out with a warning. */
export const MAX_LINE_BYTES = 1024 * 1024;

const LF = 0x0a;

/** Gathers chunks into blocks that end where a line ends. */
export class BlockSplitter {
  linesWithText = 0;
  sawOtherThanUtf8 = false;
  private buffer: Buffer;
  private used = 0;
  private firstLine = 1;
  /** Bytes of an over-long line dropped so far; 0 outside one. */
  private dropped = 0;
  private readonly index: LineIndex = { ends: new Int32Array(8192), count: 0 };

  /** @param memory for the text, to be used until the last block; `null`: an ordinary one */
  constructor(
    private readonly tally: WarningTally,
    private readonly onBlock: (block: LineBlock) => void,
    private readonly memory: TextMemory | null = null,
  ) {
    this.buffer = memory?.text ?? Buffer.allocUnsafeSlow(MAX_LINE_BYTES);
  }

  /** Destination of the next chunk, so that it need not be copied; none in ordinary memory. */
  get room(): Buffer | undefined {
    return this.buffer === this.memory?.text ? this.buffer.subarray(this.used) : undefined;
  }

  push(chunk: Buffer): void {
    const rest = this.dropped > 0 ? this.afterDropped(chunk) : chunk;
    if (rest.length === 0) return;
    const lastFeed = rest.lastIndexOf(LF);
    if (lastFeed === -1) {
      this.keep(rest);
      return;
    }
    this.keep(rest.subarray(0, lastFeed + 1));
    this.emit(false);
    this.keep(rest.subarray(lastFeed + 1));
  }

  /** Emits the rest after the last line feed. */
  finish(): void {
    if (this.dropped === 0 && this.used === 0) return;
    const feed = Buffer.of(LF);
    this.keep(this.dropped > 0 ? this.afterDropped(feed) : feed);
    this.emit(true);
  }

  private keep(bytes: Buffer): void {
    const needed = this.used + bytes.length;
    if (needed > this.buffer.length) {
      const larger = Buffer.allocUnsafeSlow(Math.max(needed, this.buffer.length * 2));
      this.buffer.copy(larger, 0, 0, this.used);
      this.buffer = larger;
    }
    const isThere = bytes.buffer === this.buffer.buffer && bytes.byteOffset === this.buffer.byteOffset + this.used;
    if (!isThere) bytes.copy(this.buffer, this.used);
    this.used = needed;
    // Without a line feed in sight, a line beyond the limit is given up before it fills the memory.
    if (this.used > MAX_LINE_BYTES && bytes[bytes.length - 1] !== LF) {
      this.dropped = this.used;
      this.used = 0;
    }
  }

  /** What follows the over-long line in this chunk: nothing, or its own line feed and the lines after. */
  private afterDropped(chunk: Buffer): Buffer {
    const feed = chunk.indexOf(LF);
    this.dropped += feed === -1 ? chunk.length : feed;
    if (feed === -1) return chunk.subarray(0, 0);
    this.tellLong(this.firstLine, this.dropped);
    this.dropped = 0;
    return chunk.subarray(feed);
  }

  private emit(openEnded: boolean): void {
    const { memory, used } = this;
    this.used = 0;
    if (memory !== null && this.buffer === memory.text) {
      const count = memory.lines(used);
      const { withText, longest, isAscii: ascii, hasZero, hasEscape } = memory.measure;
      const bytes = memory.text.subarray(0, used);
      if (longest <= MAX_LINE_BYTES && !hasZero && !hasEscape && (ascii || isUtf8(bytes))) {
        const { firstLine } = this;
        this.hand({ bytes, ends: memory.ends, count, firstLine, ascii, openEnded, memory }, withText);
        return;
      }
    }
    let bytes = withoutTerminalCodes(this.buffer.subarray(0, used));
    indexLines(bytes, this.index);
    let measure = measureLines(bytes, this.index);
    if (measure.longest > MAX_LINE_BYTES || bytes.includes(0) || !isUtf8(bytes)) {
      bytes = this.repaired(bytes);
      indexLines(bytes, this.index);
      measure = measureLines(bytes, this.index);
    }
    const { firstLine } = this;
    const { ends, count } = this.index;
    this.hand({ bytes, ends, count, firstLine, ascii: isAscii(bytes), openEnded, memory: null }, measure.withText);
  }

  private hand(block: LineBlock, withText: number): void {
    this.linesWithText += withText;
    this.firstLine += block.count;
    this.onBlock(block);
  }

  /** The block's lines without zero bytes, over-long lines and bytes that are not UTF-8. */
  private repaired(bytes: Buffer): Buffer {
    const { ends, count } = this.index;
    const parts: Buffer[] = [];
    let start = 0;
    for (let i = 0; i < count; i++) {
      const end = itemAt(ends, i) + 1;
      parts.push(this.repairedLine(bytes.subarray(start, end), this.firstLine + i));
      start = end;
    }
    return Buffer.concat(parts);
  }

  private repairedLine(bytes: Buffer, line: number): Buffer {
    let text = bytes;
    if (text.includes(0)) {
      this.tally.add(
        'zero-bytes',
        line,
        () => `Line ${line} contains zero bytes, as a power cut leaves behind; they were dropped.`,
      );
      text = Buffer.from(text.filter((byte) => byte !== 0));
    }
    if (text.length > MAX_LINE_BYTES) {
      this.tellLong(line, text.length);
      return Buffer.of(LF);
    }
    if (!isUtf8(text)) {
      this.sawOtherThanUtf8 = true;
      this.tally.add(
        'not-utf-8',
        line,
        () =>
          `Line ${line} is not valid UTF-8 and was read as windows-1252; where that is wrong, name the ` +
          'encoding in a dialect.',
      );
      text = transcoder('windows-1252')(text);
    }
    return text;
  }

  private tellLong(line: number, bytes: number): void {
    this.tally.add(
      'long-line',
      line,
      () =>
        `Line ${line} is ${(bytes / 2 ** 20).toFixed(1)} MiB long, more than the ${MAX_LINE_BYTES / 2 ** 20} ` +
        'MiB a log line may have; it was left out.',
    );
  }
}
