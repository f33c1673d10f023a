import { isAscii, isUtf8 } from 'node:buffer';
import { join } from 'node:path';
import { detectEncoding, transcoder, type Transcoder } from './encoding.js';
import { FileChunks } from './file-chunks.js';
import { indexLines, measureLines, type LineIndex } from './line-index.js';
import type { LogFile, TextForm } from './log-read.js';
import type { WarningTally } from './warning-tally.js';

/** A line longer than this costs itself: it is left out with a warning. */
export const MAX_LINE_BYTES = 1024 * 1024;

const HEAD_BYTES = 64 * 1024;
const LF = 0x0a;
const CR = 0x0d;

/** Some whole lines of a log as UTF-8. Good only until the callback returns. */
export interface LineBlock {
  /** The lines, each closed by a line feed; a carriage return before it is still there. */
  readonly bytes: Buffer;
  /** Index into `bytes` of the line feed of each line; the first `count` entries count. */
  readonly ends: Int32Array;
  readonly count: number;
  /** 1-based number of the block's first line in the file. */
  readonly firstLine: number;
  /** Every byte is below 0x80. */
  readonly ascii: boolean;
  /** The file ends in the middle of the block's last line: a program may still be writing it. */
  readonly openEnded: boolean;
}

/** Where line `i` of the block starts. */
export function lineStart(block: LineBlock, i: number): number {
  return i === 0 ? 0 : (block.ends[i - 1] ?? 0) + 1;
}

/** Where line `i` of the block ends, without its line ending. */
export function lineEnd(block: LineBlock, i: number): number {
  const end = block.ends[i] ?? 0;
  return end > 0 && block.bytes[end - 1] === CR ? end - 1 : end;
}

/** The text of bytes `[start, end)` of a block. */
export function blockText(block: LineBlock, start: number, end: number): string {
  return block.bytes.toString(block.ascii ? 'latin1' : 'utf8', start, end);
}

/**
 * Streams a text file as blocks of whole lines, in bounded memory whatever its size: plain or gzipped; UTF-8,
 * UTF-16 or the named encoding; LF, CRLF or CR. Zero bytes are dropped, over-long lines are blanked, and lines
 * that are not valid UTF-8 are read as windows-1252; each is told by a warning.
 *
 * @param rootDir the session folder
 * @param relativePath the file, relative to it, with forward slashes
 * @param encoding a `TextDecoder` label, or `auto`
 * @param onBlock called for every block, in order
 */
export async function readLines(
  rootDir: string,
  relativePath: string,
  encoding: string,
  tally: WarningTally,
  onBlock: (block: LineBlock) => void,
): Promise<LogFile> {
  return (await readLinesAndForm(rootDir, relativePath, encoding, tally, onBlock)).file;
}

/** The same, and how the text is written. */
export async function readLinesAndForm(
  rootDir: string,
  relativePath: string,
  encoding: string,
  tally: WarningTally,
  onBlock: (block: LineBlock) => void,
): Promise<{ readonly file: LogFile; readonly form: TextForm }> {
  const file = FileChunks.open(join(rootDir, relativePath), relativePath, tally);
  if (file === null) return { file: { lines: 0, sha256: '', sizeBytes: 0 }, form: { encoding: 'utf-8', lineEnding: 'LF' } };
  const splitter = new BlockSplitter(tally, onBlock);
  const decoder = new ChunkDecoder(encoding, tally);
  for await (const chunk of file.chunks()) splitter.push(decoder.decode(chunk));
  splitter.push(decoder.finish());
  splitter.finish();
  return {
    file: { lines: splitter.linesWithText, sha256: file.sha256(), sizeBytes: file.sizeBytes },
    form: { encoding: splitter.sawOtherThanUtf8 ? 'windows-1252' : decoder.label, lineEnding: decoder.lineEnding },
  };
}

/** Turns chunks into UTF-8 with line feeds. */
class ChunkDecoder {
  label = 'utf-8';
  lineEnding: TextForm['lineEnding'] = 'LF';
  private transcode: Transcoder | undefined;
  private isFirst = true;

  constructor(private readonly wanted: string, private readonly tally: WarningTally) {}

  decode(chunk: Buffer): Buffer {
    const body = this.isFirst ? this.start(chunk) : chunk;
    this.isFirst = false;
    const text = this.transcode === undefined ? body : this.transcode(body);
    if (this.lineEnding === 'CR') returnsToFeeds(text);
    return text;
  }

  finish(): Buffer {
    return this.transcode === undefined ? Buffer.alloc(0) : this.transcode();
  }

  /** Finds out how the text is written. @returns the chunk without a byte-order mark */
  private start(chunk: Buffer): Buffer {
    const detected = detectEncoding(chunk.subarray(0, HEAD_BYTES));
    this.label = this.wanted === 'auto' || detected.skip > 0 ? detected.label : this.wanted;
    if (this.wanted !== 'auto' && detected.skip > 0 && !sameEncoding(this.wanted, detected.label)) {
      this.tally.add('other-encoding', 1, () => `The byte-order mark says ${detected.label}, not ${this.wanted}; the mark was believed.`);
    }
    const body = chunk.subarray(detected.skip);
    // Lines that are not UTF-8 are dealt with one by one later: a head with such a line says nothing about the rest.
    const isGuess = this.wanted === 'auto' && this.label === 'windows-1252';
    if (!isGuess && !sameEncoding(this.label, 'utf-8')) this.transcode = transcoder(this.label);
    const head = body.subarray(0, HEAD_BYTES);
    const text = this.transcode === undefined ? head : transcoder(this.label)(head);
    const feed = text.indexOf(LF);
    this.lineEnding = feed > 0 && text[feed - 1] === CR ? 'CRLF' : feed === -1 && text.includes(CR) ? 'CR' : 'LF';
    return body;
  }
}

function sameEncoding(a: string, b: string): boolean {
  return new TextDecoder(a).encoding === new TextDecoder(b).encoding;
}

function returnsToFeeds(text: Buffer): void {
  for (let i = text.indexOf(CR); i !== -1; i = text.indexOf(CR, i + 1)) text[i] = LF;
}

/** Gathers chunks into blocks that end where a line ends. */
class BlockSplitter {
  linesWithText = 0;
  sawOtherThanUtf8 = false;
  private buffer = Buffer.allocUnsafeSlow(MAX_LINE_BYTES);
  private used = 0;
  private firstLine = 1;
  /** Bytes of an over-long line dropped so far; 0 outside one. */
  private dropped = 0;
  private readonly index: LineIndex = { ends: new Int32Array(8192), count: 0 };

  constructor(
    private readonly tally: WarningTally,
    private readonly onBlock: (block: LineBlock) => void,
  ) {}

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

  /** Emits what stands after the last line feed. */
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
    bytes.copy(this.buffer, this.used);
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
    let bytes: Buffer = this.buffer.subarray(0, this.used);
    this.used = 0;
    indexLines(bytes, this.index);
    let measure = measureLines(bytes, this.index);
    if (measure.longest > MAX_LINE_BYTES || bytes.includes(0) || !isUtf8(bytes)) {
      bytes = this.repaired(bytes);
      indexLines(bytes, this.index);
      measure = measureLines(bytes, this.index);
    }
    const { ends, count } = this.index;
    this.linesWithText += measure.withText;
    this.onBlock({ bytes, ends, count, firstLine: this.firstLine, ascii: isAscii(bytes), openEnded });
    this.firstLine += count;
  }

  /** The block's lines without zero bytes, over-long lines and bytes that are not UTF-8. */
  private repaired(bytes: Buffer): Buffer {
    const { ends, count } = this.index;
    const parts: Buffer[] = [];
    let start = 0;
    for (let i = 0; i < count; i++) {
      const end = (ends[i] ?? 0) + 1;
      parts.push(this.repairedLine(bytes.subarray(start, end), this.firstLine + i));
      start = end;
    }
    return Buffer.concat(parts);
  }

  private repairedLine(bytes: Buffer, line: number): Buffer {
    let text = bytes;
    if (text.includes(0)) {
      this.tally.add('zero-bytes', line, () => `Line ${line} holds zero bytes, as a power cut leaves them; they were dropped.`);
      text = Buffer.from(text.filter((byte) => byte !== 0));
    }
    if (text.length > MAX_LINE_BYTES) {
      this.tellLong(line, text.length);
      return Buffer.of(LF);
    }
    if (!isUtf8(text)) {
      this.sawOtherThanUtf8 = true;
      this.tally.add('not-utf-8', line, () => `Line ${line} is not valid UTF-8 and was read as windows-1252; where that is wrong, name the encoding in a dialect.`);
      text = transcoder('windows-1252')(text);
    }
    return text;
  }

  private tellLong(line: number, bytes: number): void {
    this.tally.add('long-line', line, () => `Line ${line} is ${(bytes / 2 ** 20).toFixed(1)} MiB long, more than the ${MAX_LINE_BYTES / 2 ** 20} MiB a log line may have; it was left out.`);
  }
}
