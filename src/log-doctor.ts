/**
 * A joint for one log at a time: drafting a dialect for it, and checking what a dialect makes of it.
 */
import { basename, dirname } from 'node:path';
import { placeZone } from './config/index.js';
import {
  askThrough,
  checkDialect,
  checkJson,
  draftDialect,
  draftSummary,
  draftVerdict,
  eventLogText,
  formatCheck,
  ownFormat,
  readSample,
  type Answer,
  type CheckJson,
  type Question,
} from './gather/dialects/index.js';
import { compiled, draftBeside } from './log-draft.js';
import { agreementNotes, daylightNotes, trainNotes, withTrainNames, yearNotes } from './log-notes.js';
import {
  dialectOf,
  eveningOf,
  framesOf,
  logFile,
  namedDialect,
  NO_SESSION,
  rigAbove,
  type NamedDialect,
  type SessionFrames,
} from './log-surroundings.js';
import { counted, type Site, type Warning } from './model/index.js';

export type { Answer, Question } from './gather/dialects/index.js';

/** A starter dialect, and notices about it. */
export interface DraftedDialect {
  /** The dialect, or `null` where the log is in one of nightledger's own formats and needs none. */
  readonly yaml: string | null;
  readonly summary: readonly string[];
  readonly warnings: readonly Warning[];
}

export interface DraftOptions {
  /** A session folder whose frames are compared with the log. */
  readonly session?: string;
  /** Time zone of the site, if no rig file above the log names it. */
  readonly zone?: string;
  /** The session and the rig file above the log are a stranger's: nothing that leads out of their folder is read. */
  readonly untrusted?: boolean;
  readonly nowMs: number;
}

/** Drafts a dialect from a log, and checks the result. @throws Error when there is no such file */
export async function draftFor(log: string, options: DraftOptions): Promise<DraftedDialect> {
  const path = logFile(log);
  const sample = await readSample(dirname(path), basename(path));
  const own = ownFormat(sample.lines);
  if (own !== null) {
    return {
      yaml: null,
      summary: [
        `This is nightledger's own ${own} and needs no dialect: name it under "logs" in the rig file as it is.`,
      ],
      warnings: sample.warnings,
    };
  }
  if (sample.totalLines === 0) {
    return {
      yaml: null,
      summary: [`${basename(path)} contains no informative line: draft from the log of a whole night.`],
      warnings: sample.warnings,
    };
  }
  const broken: string[] = [];
  const rig = rigAbove(path, (why) => broken.push(`look at: ${why}`));
  const { frames, place } = options.session === undefined ? NO_SESSION : await framesOf(options.session, options, rig);
  const zone = zoneAround(options.zone, rig, place);
  const { yaml, report, checked } = await draftBeside(path, sample, {
    frames,
    site: rig?.rig.site ?? siteAt(place, zone),
    zone,
  });
  const lines = report.rules.reduce((sum, rule) => sum + rule.count, 0);
  return {
    yaml: withTrainNames(yaml, checked.read.events, trainIds(rig)),
    summary: [
      ...broken,
      `${report.linesSeen} of ${report.totalLines} lines looked at, ${report.encoding}, ${report.lineEnding}`,
      report.stamp
        ? `time as ${report.stamp.pattern}, ` +
          `${report.zone === 'site' ? 'zone of the site unless the line says' : report.zone}`
        : 'no time found: write time.pattern by hand',
      ...(report.rules.length + report.unused.length === 0
        ? []
        : [
            `${counted(report.rules.length, 'rule')} proposed for ${counted(lines, 'line')}; ` +
              `${counted(report.unused.length, 'kind')} of line left over`,
          ]),
      ...(report.orderIsOpen ? ['look at: whether day or month comes first in its dates is not decided'] : []),
      ...draftSummary(report, checked),
      ...agreementNotes(checked.read.events, frames),
      ...trainNotes(checked.read.events, trainIds(rig)),
      ...draftVerdict(report),
    ],
    warnings: report.warnings,
  };
}

/**
 * Walks through the kinds that a draft of the log left unclassified; see `askThrough`.
 *
 * @param earlier the dialect file that a walk before has written, `null` at first
 * @throws Error when there is no such log
 */
export async function askFor(
  log: string,
  earlier: string | null,
  ask: (question: Question) => Promise<Answer>,
  save: (yaml: string) => Promise<void>,
): Promise<string> {
  const path = logFile(log);
  const { report } = draftDialect(await readSample(dirname(path), basename(path)));
  return askThrough(report, earlier, ask, save);
}

export interface CheckOptions {
  /** A dialect file; absent: the one the rig file names for this log, else a draft. */
  readonly dialect?: string;
  readonly train?: string;
  readonly zone?: string;
  readonly date?: string;
  /** A session folder whose frames are compared with the log. */
  readonly session?: string;
  /** As for a draft. */
  readonly untrusted?: boolean;
  readonly nowMs: number;
  /** Of the terminal that the text is for. */
  readonly columns?: number;
}

/** The result of a dialect on a log: as text for a terminal, as data, and as an event log. */
export interface CheckedLog {
  readonly text: string;
  readonly json: CheckJson;
  readonly eventLog: string;
}

/**
 * Checks the result of a dialect on a log.
 *
 * @throws ConfigError when the dialect cannot be used; Error when there is no such file
 */
export async function checkLog(log: string, options: CheckOptions): Promise<CheckedLog> {
  const path = logFile(log);
  const broken: string[] = [];
  const rig = rigAbove(path, (why) => broken.push(why));
  const named =
    options.dialect === undefined ? dialectOf(path, rig, options.untrusted ?? false) : namedDialect(options.dialect);
  const used = named ?? (await draftAsDialect(path));
  const { frames, place } = options.session === undefined ? NO_SESSION : await framesOf(options.session, options, rig);
  const zone = zoneAround(options.zone, rig, place);
  const report = await checkDialect(dirname(path), basename(path), compiled(used.name, used.text), {
    train: options.train ?? used.train,
    zone,
    sessionDate: options.date ?? eveningOf(frames, zone),
  });
  const notes = [
    ...broken,
    ...(named === null
      ? ['No dialect was named and no rig file names one for this log: this is what `dialect draft` would produce.']
      : []),
    ...daylightNotes(report.read.events, rig?.rig.site ?? null),
    ...yearNotes(report.read.events, options.nowMs),
    ...agreementNotes(report.read.events, frames),
    ...trainNotes(report.read.events, trainIds(rig)),
  ];
  return {
    text: formatCheck(report, notes, options.columns),
    json: checkJson(report),
    eventLog: eventLogText(report.read.events),
  };
}

/** The site from the headers of frames: its darkness determines the zone if no rig file names a site. */
/** The site’s zone: as named, by the rig file, else of the place in the headers. An offset would miss clock changes. */
function zoneAround(
  named: string | undefined,
  rig: ReturnType<typeof rigAbove>,
  place: SessionFrames['place'],
): string | undefined {
  return named ?? rig?.rig.site?.timezone ?? (place ? placeZone(place.latitudeDeg, place.longitudeDeg) : undefined);
}

function siteAt(place: SessionFrames['place'], timezone: string | undefined): Site | null {
  if (place === null || timezone === undefined) return null;
  return { name: 'by the headers', ...place, timezone, minimumAltitudeDeg: 0, horizon: [] };
}

function trainIds(rig: ReturnType<typeof rigAbove>): string[] {
  return rig?.rig.trains.map(({ id }) => id) ?? [];
}

async function draftAsDialect(path: string): Promise<NamedDialect> {
  const { yaml } = draftDialect(await readSample(dirname(path), basename(path)));
  return { text: yaml, name: 'a draft' };
}
