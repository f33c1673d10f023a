/** A dialect drafted for a log beside what is known of its session: the frames, the site, the rig file's zone. */
import { basename, dirname } from 'node:path';
import { ConfigError } from './config/index.js';
import {
  checkDialect,
  draftDialect,
  loadDialect,
  type CheckReport,
  type CompiledDialect,
  type Draft,
  type DraftHints,
  type LogSample,
} from './gather/dialects/index.js';
import type { FrameTimes } from './gather/dialects/reading.js';
import { eveningOf } from './log-surroundings.js';
import { provedZone } from './log-zone.js';
import type { Site } from './model/index.js';

/** A draft is tested on this many lines; `dialect check` reads the whole log. */
const CHECKED_LINES = 150_000;

/** Stamps that contain a UTC offset. */
const SAYS_ZONE = /\{offset\}|\{epoch|\{julian|\{mjd/;

/** What a draft is made beside. */
export interface DraftSurroundings {
  /** The light frames of the session, in order of time. */
  readonly frames: readonly FrameTimes[];
  readonly site: Site | null;
  /** The site's zone, if known. */
  readonly zone: string | undefined;
}

/** A draft, and what it reads in its log. */
export interface TestedDraft extends Draft {
  readonly checked: CheckReport;
}

/**
 * Drafts a dialect, reads the log by it, and drafts it once more where frames, the Sun or the file's time show another
 * zone.
 *
 * @param path the log that the sample is of
 */
export async function draftBeside(
  path: string,
  sample: LogSample,
  { frames, site, zone }: DraftSurroundings,
): Promise<TestedDraft> {
  const sessionDate = eveningOf(frames, zone);
  const tried = async (hints: DraftHints): Promise<TestedDraft> => {
    const draft = draftDialect(sample, hints);
    const checked = await checkDialect(dirname(path), basename(path), compiled('the draft', draft.yaml), {
      zone,
      sessionDate,
      firstLines: CHECKED_LINES,
    });
    return { ...draft, checked };
  };
  const night = { ...(zone === undefined ? {} : { zone }), ...(sessionDate === undefined ? {} : { sessionDate }) };
  const asWritten = await tried({ frames, night });
  const evidence = { frames, site, siteZone: zone, writtenMs: sample.writtenMs };
  const statesZone = SAYS_ZONE.test(asWritten.report.stamp?.pattern ?? '');
  const proved = statesZone ? null : provedZone(asWritten.checked.read.events, asWritten.report.zone, evidence);
  return proved === null ? asWritten : await tried({ frames, night, zone: proved });
}

/** A dialect ready to read with. @throws ConfigError when it cannot be used */
export function compiled(name: string, text: string): CompiledDialect {
  const { dialect, warnings } = loadDialect(name, text);
  if (!dialect) throw new ConfigError(warnings.map((w) => w.message));
  return dialect;
}
