/**
 * Files and log entries that are the same exposure because both name the same file.
 */
import { groupBy, type HeaderFrame } from '../model/index.js';
import type { LogExposure } from './log-exposures.js';

/** One exposure as header and log tell it; one of them may be missing. */
export interface Pairing {
  readonly header?: HeaderFrame;
  readonly log?: LogExposure;
}

/** Pairs by file name; what has no partner stands alone. */
export function pairByName(headers: readonly HeaderFrame[], exposures: readonly LogExposure[]): Pairing[] {
  const waiting = groupBy(exposures, ({ file }) => (file === undefined ? undefined : nameKey(file)));
  const used = new Set<LogExposure>();
  const pairings: Pairing[] = headers.map((header) => {
    const candidates = (waiting.get(nameKey(header.file)) ?? []).filter((e) => !used.has(e));
    const log = nearest(candidates, header.exposure?.startMs);
    if (log) used.add(log);
    return { header, log };
  });
  return [...pairings, ...exposures.filter((e) => !used.has(e)).map((log) => ({ log }))];
}

/** The file's name without folders, compression ending or case: what log and disk can agree on. */
function nameKey(path: string): string {
  const base = path.split(/[\\/]/).at(-1) ?? path;
  return base.toLowerCase().replace(/\.(gz|fz)$/, '');
}

/** The first where the file is not dated. */
function nearest(candidates: readonly LogExposure[], atMs: number | undefined): LogExposure | undefined {
  if (atMs === undefined) return candidates[0];
  return candidates.reduce<LogExposure | undefined>(
    (best, c) => (!best || Math.abs(c.beginMs - atMs) < Math.abs(best.beginMs - atMs) ? c : best),
    undefined,
  );
}
