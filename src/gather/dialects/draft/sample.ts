import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { blockText, lineEnd, lineStart, readLinesAndForm } from '../../lines/read-lines.js';
import type { TextForm } from '../../lines/log-read.js';
import { recordsOfDocument } from './layout/document-layout.js';
import { mayBeDump } from '../document/sql-rows.js';
import { tableRows } from '../document/table-rows.js';
import { WarningTally } from '../../lines/warning-tally.js';
import type { Warning } from '../../../model/index.js';

/** Number of lines and size of the text that a draft examines. */
const MAX_LINES = 30_000;
const MAX_CHARACTERS = 12 * 2 ** 20;
/** A document is examined as a whole: one of this size takes two seconds. */
const MAX_DOCUMENT_BYTES = 8 * 2 ** 20;
/** A log message is shorter; the rest is ignored. A record may hold lists of samples. */
const MAX_LINE = 2000;
const MAX_RECORD = 256 * 1024;
const OPENING_BRACE = 0x7b;

/** The beginning of a log, as far as a draft examines it. */
export interface LogSample extends TextForm {
  /** Path, for messages and for a date in its name. */
  readonly file: string;
  readonly lines: readonly string[];
  /** Number of non-empty lines in the whole log. */
  readonly totalLines: number;
  /** The lines are the records of a document, with times in these fields; `null` if lines are lines. */
  readonly document?: readonly string[] | null;
  /** The lines are table rows of an HTML page or of a database dump. */
  readonly isRows?: boolean;
  /** The lines are those of plain tables that a sheet kept by hand was turned into. */
  readonly isSheet?: boolean;
  /** When the file was last modified, UTC ms, if known. */
  readonly writtenMs?: number;
  readonly warnings: readonly Warning[];
}

/**
 * Reads the beginning of a log for `draftDialect`: up to 30,000 lines, more than a night has. Never throws.
 *
 * @param rootDir the folder that the path is relative to
 */
export async function readSample(rootDir: string, relativePath: string): Promise<LogSample> {
  const tally = new WarningTally(relativePath);
  const lines: string[] = [];
  let characters = 0;
  let document: readonly string[] | null = null;
  let isRows = false;
  const { file, form } = await readLinesAndForm(
    rootDir,
    relativePath,
    'auto',
    tally,
    (block) => {
      for (let i = 0; i < block.count && lines.length < MAX_LINES && characters < MAX_CHARACTERS; i++) {
        const start = lineStart(block, i);
        const longest = block.bytes[start] === OPENING_BRACE ? MAX_RECORD : MAX_LINE;
        const text = blockText(block, start, Math.min(lineEnd(block, i), start + longest));
        lines.push(text);
        characters += text.length;
      }
    },
    'auto',
    {
      maxBytes: MAX_DOCUMENT_BYTES,
      mayBegin: mayBeDump,
      linesOf: (text) => {
        const rows = tableRows(text);
        isRows = rows !== null;
        if (rows !== null) return rows;
        const found = recordsOfDocument(text);
        document = found?.times ?? null;
        return found?.lines ?? null;
      },
    },
  );
  return {
    file: relativePath,
    ...form,
    lines,
    document,
    isRows,
    totalLines: file.lines,
    writtenMs: writtenAt(resolve(rootDir, relativePath)),
    warnings: tally.list().filter((warning) => warning.code !== 'not-utf-8'),
  };
}

function writtenAt(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? NaN;
}
