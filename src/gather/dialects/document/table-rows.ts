import type { DocumentLines } from '../../lines/document-buffer.js';
import { htmlRows } from './html-rows.js';
import { mayBeDump, sqlRows } from './sql-rows.js';

/** A larger page or dump is not the log of one night. */
const MAX_BYTES = 64 * 2 ** 20;

/** The rows of an HTML page's tables or of a database dump as lines; `null` if the text is neither. */
export function tableRows(text: string): string[] | null {
  return htmlRows(text) ?? sqlRows(text);
}

/** Turns a page or a dump into rows. */
export function tableLines(): DocumentLines {
  return { maxBytes: MAX_BYTES, mayBegin: mayBeDump, linesOf: tableRows };
}
