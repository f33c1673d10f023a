/** A night's record as the archive stores it: with what the outlook, the goals and the links need. */
import { DEFAULT_DARKNESS, type Night } from '../../model/index.js';
import { toGoalsRecord } from '../goals.js';
import type { SessionRecord } from '../schema.js';
import { toRecord } from '../write.js';

/** What an archive knows about a session besides its night. */
export interface ArchiveFacts {
  /** A short name of the session's folder that does not reveal its location. */
  readonly session: string;
  /** Path of the night's report, relative to the archive. */
  readonly report: string | null;
}

/** The record of a night, to be added to an archive. */
export function forArchive(night: Night, { session, report }: ArchiveFacts, version: string): SessionRecord {
  const { parts: _none, ...record } = toRecord(night, version);
  const {
    gathered: { site, goals = [] },
    sky: { almanac: sky },
  } = night;
  return {
    ...record,
    archive: {
      session,
      report,
      darkness: sky?.window.asked ?? DEFAULT_DARKNESS,
      minimumAltitude: site?.minimumAltitudeDeg,
      horizon:
        site && site.horizon.length > 0
          ? site.horizon.map(([azimuth, altitude]): [number, number] => [azimuth, altitude])
          : undefined,
      goals: goals.map(toGoalsRecord),
    },
  };
}
