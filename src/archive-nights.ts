/** The contents of an archive: its nights, summarised, and their goals from its `goals.yaml`. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { NO_BOOK, parseGoals } from './config/index.js';
import { RIG_FILES } from './config/rig-names.js';
import { MAX_CONFIG_BYTES, readTextFile } from './files/read-text.js';
import { siteKeys, type GoalsBook, type NightSummary, type Warning } from './model/index.js';
import {
  readArchivedNights,
  type ArchivedNights,
  type MergeSessions,
  type ReadingOptions,
  type Remembering,
} from './record/index.js';
import type { Earlier } from './report/index.js';

/** The goals file's name in an archive. */
export const GOALS_FILE = 'goals.yaml';

/** Merges sessions; its program is loaded where some are to be merged, for it is the whole of a night's. */
export const mergeLate: MergeSessions = async (...given) => {
  const { mergeSessions } = await import('./merge-sessions.js');
  return mergeSessions(...given);
};

/**
 * An archive's nights summed up, oldest first.
 *
 * @param remembering where sums are kept between runs; every record is read when absent
 * @throws Error when the folder itself cannot be read
 */
export function archivedNights(
  archive: string,
  options?: ReadingOptions,
  remembering?: Remembering,
): Promise<ArchivedNights> {
  return readArchivedNights(archive, mergeLate, options, remembering);
}

/**
 * An archive's context for a night added to it: the nights there, and the goals of its `goals.yaml`. Empty if there is
 * no archive yet; unusable content is a warning.
 */
export async function earlierNights(
  archive: string,
  remembering?: Remembering,
): Promise<{ readonly earlier?: Earlier; readonly warnings: readonly Warning[] }> {
  if (!existsSync(archive)) return { warnings: [] };
  try {
    const { nights } = await archivedNights(archive, {}, remembering);
    const { book, warnings } = readGoals(archive);
    const goals = book.targets.flatMap(({ goals: own, ...target }) =>
      own === undefined ? [] : [{ ...target, goals: own }],
    );
    return { earlier: { nights, goals }, warnings };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { warnings: [{ code: 'archive-goals', message: `goals count this night alone: ${why}` }] };
  }
}

/** The same text for nights of one site, `null` where none is known. */
export function siteKeyOf(nights: readonly NightSummary[]): (night: NightSummary) => string | null {
  const keys = siteKeys(nights.map((night) => night.site));
  const byNight = new Map(nights.map((night, i) => [night, keys[i] ?? null] as const));
  return (night) => byNight.get(night) ?? null;
}

/** The user's goals for the archive's targets. @throws ConfigError */
export function readGoals(archive: string): { book: GoalsBook; warnings: readonly Warning[] } {
  const path = join(archive, GOALS_FILE);
  const { book, warnings } = existsSync(path)
    ? parseGoals(GOALS_FILE, readTextFile(path, { maxBytes: MAX_CONFIG_BYTES, name: GOALS_FILE }))
    : { book: NO_BOOK, warnings: [] };
  return { book, warnings: [...warnings, ...strayRigs(archive)] };
}

/** A rig file next to the records looks as if its goals counted. */
function strayRigs(archive: string): Warning[] {
  return RIG_FILES.filter((name) => existsSync(join(archive, name))).map((name) => ({
    code: 'rig-in-archive',
    message:
      `${name} in the archive is not read: goals of many nights belong in ${GOALS_FILE} next to it ` +
      '(docs/archive.md), and a rig file in the folder of a night',
    source: { file: name },
  }));
}
