/** `nightledger/archive`: the nights of an archive for other programs, summarised as on the progress page. */
import { mergeSessions } from '../merge-sessions.js';
import { readArchivedNights, type ArchivedNights, type ReadingOptions } from '../record/archive/read-nights.js';

export type { ArchivedNights, ReadingOptions } from '../record/archive/read-nights.js';
export type { NightSummary, Warning } from '../model/index.js';

/**
 * Reads every record of an archive, oldest night first: instants in whole UTC milliseconds, angles in degrees. Several
 * files of one night and site are merged, and no frame counts twice. A damaged record is renamed to `….json.damaged`,
 * as by every command that reads an archive, and stands among the warnings; nothing else is written.
 *
 * @param folder the archive
 * @throws Error when the folder itself cannot be read
 */
export function readArchive(folder: string, options: ReadingOptions = {}): Promise<ArchivedNights> {
  return readArchivedNights(folder, mergeSessions, options);
}
