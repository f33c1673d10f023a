import { resolve } from 'node:path';
import { BlockSplitter } from './block-splitter.js';
import { ChunkDecoder } from './chunk-decoder.js';
import { FileChunks } from './file-chunks.js';
import type { LineBlock } from './line-block.js';
import type { LogFile, TextForm } from './log-read.js';
import type { WarningTally } from './warning-tally.js';

export { blockText, lineEnd, lineStart, type LineBlock } from './line-block.js';
export { MAX_LINE_BYTES } from './block-splitter.js';

/**
 * Streams a text file as blocks of whole lines, in bounded memory whatever its size: plain or gzipped; UTF-8,
 * UTF-16 or the named encoding; LF, CRLF or CR. Zero bytes are dropped, over-long lines are blanked, and lines
 * that are not valid UTF-8 are read as windows-1252; each is reported by a warning.
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
  const file = FileChunks.open(resolve(rootDir, relativePath), relativePath, tally);
  if (file === null)
    return { file: { lines: 0, sha256: '', sizeBytes: 0 }, form: { encoding: 'utf-8', lineEnding: 'LF' } };
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
