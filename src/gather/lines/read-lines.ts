import { resolve } from 'node:path';
import { BlockSplitter } from './block-splitter.js';
import { ChunkDecoder } from './chunk-decoder.js';
import { DocumentBuffer, type DocumentLines } from './document-buffer.js';
import { FileChunks } from './file-chunks.js';
import type { LineBlock } from './line-block.js';
import type { LogFile, TextForm } from './log-read.js';
import { levelOfObjects, ObjectDivider } from './object-divider.js';
import { giveBack, takeTextMemory } from './text-memory.js';
import type { WarningTally } from './warning-tally.js';

export { blockText, blockTexts, lineEnd, lineStart, trimmedText, type LineBlock } from './line-block.js';
export { MAX_LINE_BYTES } from './block-splitter.js';

/** Determines whether a text is a JSON document on one line. */
const HEAD_BYTES = 64 * 1024;
/** Making the memory takes a millisecond, and each million bytes takes one and a half less in it. */
const WORTH_A_MEMORY = 4 * 2 ** 20;

/**
 * Streams a text file as blocks of whole lines, in bounded memory for any size: plain or gzipped; UTF-8, UTF-16 or the
 * named encoding; LF, CRLF or CR. Zero bytes are dropped, over-long lines are blanked, and lines that are not valid
 * UTF-8 are read as windows-1252; each is reported by a warning.
 *
 * @param rootDir the session folder
 * @param relativePath the file, relative to it, with forward slashes
 * @param encoding a `TextDecoder` label, or `auto`
 * @param onBlock called for every block, in order
 * @param objects depth of the lists of a JSON document whose objects are lines: 0 for lines as they are, `auto` to
 * detect it
 * @param document turns the text of a whole document into lines, for a log that is one
 */
export async function readLines(
  rootDir: string,
  relativePath: string,
  encoding: string,
  tally: WarningTally,
  onBlock: (block: LineBlock) => void,
  objects: number | 'auto' = 0,
  document: DocumentLines | null = null,
): Promise<LogFile> {
  return (await readLinesAndForm(rootDir, relativePath, encoding, tally, onBlock, objects, document)).file;
}

/** The same, and how the text is written. */
export async function readLinesAndForm(
  rootDir: string,
  relativePath: string,
  encoding: string,
  tally: WarningTally,
  onBlock: (block: LineBlock) => void,
  objects: number | 'auto' = 0,
  document: DocumentLines | null = null,
): Promise<{ readonly file: LogFile; readonly form: TextForm }> {
  const file = FileChunks.open(resolve(rootDir, relativePath), relativePath, tally);
  if (file === null)
    return { file: { lines: 0, sha256: '', sizeBytes: 0 }, form: { encoding: 'utf-8', lineEnding: 'LF' } };
  const memory = file.sizeBytes < WORTH_A_MEMORY ? null : takeTextMemory();
  const splitter = new BlockSplitter(tally, onBlock, memory);
  const decoder = new ChunkDecoder(encoding, tally);
  const whole = document === null ? null : new DocumentBuffer(document);
  let level = objects;
  let divider: ObjectDivider | null = null;
  const divided = (text: Buffer): Buffer => {
    if (level === 'auto' && text.length > 0) level = levelOfObjects(text.subarray(0, HEAD_BYTES));
    if (level !== 'auto' && level > 0) divider ??= new ObjectDivider(level);
    return divider === null ? text : divider.divide(text);
  };
  const passed = (text: Buffer): Buffer => whole?.push(text) ?? text;
  try {
    for await (const chunk of file.chunks(() => splitter.room)) splitter.push(divided(passed(decoder.decode(chunk))));
    splitter.push(divided(passed(decoder.finish())));
    if (whole !== null) {
      const rest = whole.finish();
      splitter.push(whole.isDocument ? rest : divided(rest));
    }
    splitter.finish();
  } finally {
    giveBack(memory);
  }
  return {
    file: { lines: splitter.linesWithText, sha256: file.sha256, sizeBytes: file.sizeBytes },
    form: {
      encoding: splitter.sawOtherThanUtf8 ? 'windows-1252' : decoder.label,
      lineEnding: decoder.lineEnding,
      ...(typeof level === 'number' && level > 0 ? { objects: level } : {}),
    },
  };
}
