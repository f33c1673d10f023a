/**
 * Files and log entries that are the same exposure because both name the same file.
 */
import { frameNameKey, groupBy, type DatedHeader } from '../model/index.js';
import type { LogExposure } from './log-exposures.js';

/** An exposure with a file. */
export interface FilePairing {
  readonly header: DatedHeader;
  /** Absent when no log mentions the file. */
  readonly log?: LogExposure;
}

/** An exposure known only from a log. */
export interface LogPairing {
  readonly header?: undefined;
  readonly log: LogExposure;
}

/** One exposure as stated by header and log. */
export type Pairing = FilePairing | LogPairing;

/** The combined facts of an exposure, if both know it. */
export function isBoth(pairing: Pairing): pairing is FilePairing & { readonly log: LogExposure } {
  return pairing.header !== undefined && pairing.log !== undefined;
}

/** Pairs by file name; entries without a partner remain single. */
export function pairByName(headers: readonly DatedHeader[], exposures: readonly LogExposure[]): Pairing[] {
  const waiting = groupBy(exposures, ({ file }) => (file === undefined ? undefined : frameNameKey(file)));
  const used = new Set<LogExposure>();
  const pairings: Pairing[] = headers.map((header) => {
    const candidates = waiting.get(frameNameKey(header.file))?.filter((e) => !used.has(e));
    const log = candidates && nearest(candidates, header.exposure.startMs);
    if (log) used.add(log);
    return { header, log };
  });
  return [...pairings, ...exposures.filter((e) => !used.has(e)).map((log) => ({ log }))];
}

function nearest(candidates: readonly LogExposure[], atMs: number): LogExposure | undefined {
  return candidates.reduce<LogExposure | undefined>(
    (best, c) => (!best || Math.abs(c.beginMs - atMs) < Math.abs(best.beginMs - atMs) ? c : best),
    undefined,
  );
}
