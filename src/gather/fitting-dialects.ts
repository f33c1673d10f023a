/**
 * The user's own dialects, tried on logs that no rig file describes yet.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { MAX_CONFIG_BYTES, readTextFile } from '../files/read-text.js';
import type { SessionFile } from './session-files.js';

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
  if (!existsSync(folder)) return fitting;
  const files = readdirSync(folder).filter((name) => /\.ya?ml$/i.test(name));
  const { checkDialect, loadDialect } = await import('./dialects/index.js');
  for (const log of logs) {
    if (log.sizeBytes > MAX_LOG_BYTES) continue;
    let best = UNDERSTOOD;
    for (const name of files.sort().slice(0, MAX_DIALECTS)) {
      const path = join(folder, name);
      // Compiled anew for every log: patterns have a limit of time all together.
      const { dialect } = loadDialect(name, readTextFile(path, { maxBytes: MAX_CONFIG_BYTES }));
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
