/**
 * Logs that the rig file names more than once, as `logs/*.jsonl` under every train does: read under each train, every
 * exposure would be counted on each of them.
 */
import { groupBy, itemAt, listed, type Warning } from '../model/index.js';

/** A log as one entry of the rig file names it. */
export interface NamedLog {
  readonly file: { readonly path: string };
  readonly role: string;
  readonly train?: string;
  readonly dialect?: string;
}

/**
 * Each log once by each dialect: under the only train of those that name it whose id is in its path, else under the
 * first. Which train a log without such a name belongs to is decided later, by the frames that it mentions.
 */
export function eachOnce<T extends NamedLog>(logs: readonly T[]): { readonly logs: T[]; readonly warnings: Warning[] } {
  const claims = [...groupBy(logs, ({ file, role, dialect }) => JSON.stringify([file.path, role, dialect])).values()];
  const warnings = claims.flatMap((claim): Warning[] => {
    const trains = trainsOf(claim);
    if (trains.length < 2) return [];
    const { path } = itemAt(claim, 0).file;
    return [
      {
        code: 'log-of-several-trains',
        message:
          `${path} is named under ${listed(trains)} in the rig file. It was read once: lines that name their own ` +
          `train count for it, all others for ${takenOf(claim).train}. Name it under one train`,
        source: { file: path },
      },
    ];
  });
  return { logs: claims.map(takenOf), warnings };
}

function trainsOf(claim: readonly NamedLog[]): string[] {
  return [...new Set(claim.flatMap(({ train }) => train ?? []))];
}

function takenOf<T extends NamedLog>(claim: readonly T[]): T {
  const path = itemAt(claim, 0).file.path.toLowerCase();
  const named = trainsOf(claim).filter((train) => path.includes(train.toLowerCase()));
  return claim.find(({ train }) => named.length === 1 && train === named[0]) ?? itemAt(claim, 0);
}
