/** Logs in our own formats, recognised by their first lines: they need no dialect. */
import { closeSync, openSync, readSync } from 'node:fs';
import { resolve } from 'node:path';
import { isEventName, isObject } from '../model/index.js';
import { rfc3339 } from './lines/rfc3339.js';
import type { SessionFile } from './session-files.js';

const HEAD_BYTES = 4096;
const GUIDING_COLUMNS = ['at', 'ra_arcsec', 'dec_arcsec'];

/** Paths of the logs in nightledger's own event log or guiding sample formats. */
export function ownFormatLogs(root: string, logs: readonly SessionFile[]): string[] {
  return logs.flatMap(({ path }) => {
    const [first] = headOf(resolve(root, path)).split(/\r?\n/, 1);
    return first !== undefined && (isEvent(first) || isGuidingHeader(first)) ? [path] : [];
  });
}

/** Whether a file begins with the head of guiding samples as nightledger reads them by itself. */
export function isGuidingLog(root: string, { path }: SessionFile): boolean {
  const [first] = headOf(resolve(root, path)).split(/\r?\n/, 1);
  return first !== undefined && isGuidingHeader(first);
}

/** The beginning of a file; empty if unreadable, which its reader will report. */
function headOf(path: string): string {
  try {
    const file = openSync(path, 'r');
    try {
      const head = Buffer.alloc(HEAD_BYTES);
      return head.toString('utf8', 0, readSync(file, head, 0, head.length, 0)).replace(/^\uFEFF/, '');
    } finally {
      closeSync(file);
    }
  } catch {
    return '';
  }
}

function isEvent(line: string): boolean {
  try {
    const json: unknown = JSON.parse(line);
    return isObject(json) && typeof json.at === 'string' && !Number.isNaN(rfc3339(json.at)) && isKnown(json.event);
  } catch {
    return false;
  }
}

function isKnown(event: unknown): boolean {
  return typeof event === 'string' && isEventName(event);
}

function isGuidingHeader(line: string): boolean {
  const names = line.split(',').map((name) => name.trim().toLowerCase());
  return GUIDING_COLUMNS.every((column) => names.includes(column));
}
