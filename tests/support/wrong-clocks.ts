/**
 * Sessions whose computers' clocks are wrong: the same files with other times in them.
 */
import type { SessionFiles } from './generator/write-session.js';

/** What of a computer's writing is off. */
export type Written = 'both' | 'headers' | 'log';

/**
 * The session as it is when one computer's clock is ahead.
 *
 * @param aheadMs all night, or at an instant
 * @param written `both`: one computer wrote headers and log, and the guiding samples where it is the pilot's (`heron`)
 */
export function withFastComputer(
  files: SessionFiles,
  train: string,
  aheadMs: number | ((atMs: number) => number),
  written: Written = 'both',
): SessionFiles {
  const ahead = typeof aheadMs === 'number' ? () => aheadMs : aheadMs;
  const later = (iso: string): string => new Date(Date.parse(iso) + ahead(Date.parse(iso))).toISOString();
  const isLog = (path: string): boolean =>
    path === `logs/${train}.jsonl` || (train === 'heron' && path === 'logs/guiding.csv');
  return new Map(
    [...files].map(([path, content]) => {
      if (written !== 'headers' && isLog(path))
        return [path, String(content).replace(/\d{4}-\d\d-\d\dT[\d:.]+Z/g, later)];
      if (written === 'log' || !path.startsWith(`frames/${train}/`)) return [path, content];
      const moved = (content as Buffer)
        .toString('latin1')
        .replace(
          /(DATE-OBS= ')([^']+)(')/,
          (_all, before, date: string, after) =>
            `${before}${later(`${date.trim()}Z`).replace('Z', '').padEnd(date.length)}${after}`,
        );
      return [path, Buffer.from(moved, 'latin1')];
    }),
  );
}
