/** Files that are called as logs are and are none: results, settings, lists without times. */
import { closeSync, openSync, readSync } from 'node:fs';
import { resolve } from 'node:path';
import type { SessionFile } from './session-files.js';

/** Number of bytes examined of each file. */
const LOOKED_AT = 2 ** 18;
/** Only documents are examined: a text without times of day may count seconds, or name them in words. */
const DOCUMENT = /\.(?:json|xml)$/i;
/** A result of this program: its record, or what a sample is expected to give. */
const RESULT = /^\s*\{\s*(?:"schema"\s*:\s*"nightledger\/|"night"\s*:\s*"\d{4}-\d\d-\d\d"\s*,\s*"(?:totals|site)")/;
/** Times of day, and counts since 1970 in seconds to nanoseconds. */
const TIME = /\b\d{1,2}[:h]\d{2}(?::\d{2})?|T\d{6}|\b[12]\d{9}(?:\d{3}|\d{6}|\d{9})?\b/g;
/** Counts from any other beginning: of days with their parts, of seconds or less. */
const COUNT = /\b\d{4,}\.\d+|\b\d{5,}\b/g;
/** A log states a begin, an end, and what came between; settings have large numbers, too, but few. */
const FEWEST_TIMES = 3;
const FEWEST_COUNTS = 12;

/** Without documents that hold no instants, and without this program's own results. */
export function withoutNoLogs(root: string, files: readonly SessionFile[]): SessionFile[] {
  return files.filter(({ path }) => !DOCUMENT.test(path) || isLog(beginningOf(resolve(root, path))));
}

/** Whether a file states times as a log does: several times of day, or a count in every line. */
export function statesTimes(root: string, { path }: SessionFile): boolean {
  const text = beginningOf(resolve(root, path));
  return text !== null && isLog(text);
}

/** An unreadable file is left to its reader, which says so. */
function isLog(text: string | null): boolean {
  if (text === null) return true;
  if (RESULT.test(text)) return false;
  return holds(text, TIME, FEWEST_TIMES) || holds(text, COUNT, FEWEST_COUNTS);
}

function holds(text: string, pattern: RegExp, fewest: number): boolean {
  const found = new Set<string>();
  for (const [one] of text.matchAll(pattern)) if (found.add(one).size >= fewest) return true;
  return false;
}

function beginningOf(path: string): string | null {
  try {
    const file = openSync(path, 'r');
    try {
      const head = Buffer.alloc(LOOKED_AT);
      return head.toString('utf8', 0, readSync(file, head, 0, head.length, 0)).replace(/^\uFEFF/, '');
    } finally {
      closeSync(file);
    }
  } catch {
    return null;
  }
}
