import { itemAt } from '../../model/collections.js';
import type { TextMemory } from './text-memory.js';

const CR = 0x0d;
const BLANK = 0x20;

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
  /** The memory that `bytes` are at the beginning of the text of; `null` if they are elsewhere. */
  readonly memory: TextMemory | null;
}

/** Where line `i` of the block starts. */
export function lineStart(block: LineBlock, i: number): number {
  return i === 0 ? 0 : itemAt(block.ends, i - 1) + 1;
}

/** Where line `i` of the block ends, without its line ending. */
export function lineEnd(block: LineBlock, i: number): number {
  const end = itemAt(block.ends, i);
  return end > 0 && block.bytes[end - 1] === CR ? end - 1 : end;
}

/** The text of bytes `[start, end)` of a block. */
export function blockText(block: LineBlock, start: number, end: number): string {
  return block.bytes.toString(block.ascii ? 'latin1' : 'utf8', start, end);
}

/** Gives the texts of a block's lines. Most blocks are plain ASCII: all are cut from one text, in less time. */
export function blockTexts(block: LineBlock): (start: number, end: number) => string {
  if (!block.ascii) return (start, end) => blockText(block, start, end);
  const all = blockText(block, 0, block.bytes.length);
  return (start, end) => all.slice(start, end);
}

/** The text of bytes `[start, end)` without blanks at both ends: of most lines no second text is made for it. */
export function trimmedText(block: LineBlock, start: number, end: number): string {
  const { bytes } = block;
  let from = start;
  let upTo = end;
  while (from < upTo && bytes[from] === BLANK) from++;
  while (upTo > from && bytes[upTo - 1] === BLANK) upTo--;
  return blockText(block, from, upTo).trim();
}
