/**
 * The user's own dialects, tried on logs that no rig file describes yet.
 */
import { basename } from 'node:path';
import { MAX_CONFIG_BYTES, readTextFile } from '../files/read-text.js';
import type { SessionFile } from './session-files.js';
import { yamlFilesOf } from './yaml-files.js';

/** A log must be understood to this share of its lines, and give this many events or samples, for a dialect to fit. */
const UNDERSTOOD = 0.5;
const FOUND = 3;
/** Larger logs are not tried: `dialect check` does that. */
const MAX_LOG_BYTES = 64 * 2 ** 20;
const MAX_DIALECTS = 50;

/**
 * Which of the dialects in a folder fits each log best.
 *
 * @param folder the user's dialects, .yaml or .yml; a folder that is not there holds none
 * @returns paths of dialects by paths of logs, only logs that one fits
 */
export async function fittingDialects(
  root: string,
  logs: readonly SessionFile[],
  folder: string,
): Promise<Map<string, string>> {
  const fitting = new Map<string, string>();
  const files = yamlFilesOf(folder).slice(0, MAX_DIALECTS).flatMap(readable);
  if (files.length === 0) return fitting;
  const { checkDialect, loadDialect } = await import('./dialects/index.js');
  for (const log of logs) {
    if (log.sizeBytes > MAX_LOG_BYTES) continue;
    let best = UNDERSTOOD;
    for (const { path, text } of files) {
      // Compiled anew for every log: patterns share a time budget.
      const { dialect } = loadDialect(basename(path), text);
      if (dialect === null) continue;
      const { lines, read } = await checkDialect(root, log.path, dialect);
      const share = (lines.all - lines.unmatched - lines.unusable) / Math.max(1, lines.all);
      if (share < best || read.events.length + (read.guiding?.atMs.length ?? 0) < FOUND) continue;
      best = share;
      fitting.set(log.path, path);
    }
  }
  return fitting;
}

/** A pipe or a folder with such a name is no dialect; `dialect check` says why where it is asked for. */
function readable(path: string): { readonly path: string; readonly text: string }[] {
  try {
    return [{ path, text: readTextFile(path, { maxBytes: MAX_CONFIG_BYTES }) }];
  } catch {
    return [];
  }
}
