/**
 * A joint for one log at a time: drafting a dialect for it, and checking what a dialect makes of it.
 */
import { existsSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { ConfigError, parseRig, type Rig } from './config/index.js';
import {
  agreement,
  askThrough,
  agreementNote,
  checkDialect,
  checkJson,
  draftDialect,
  draftSummary,
  eventLogText,
  formatCheck,
  loadDialect,
  ownFormat,
  readSample,
  type Answer,
  type CheckJson,
  type CompiledDialect,
  type FrameTimes,
  type Question,
} from './gather/dialects/index.js';
import { isFitsName, readHeaderFrames } from './gather/fits/index.js';
import { listSessionFiles } from './gather/session-files.js';
import { pathMatcher } from './files/glob.js';
import { isWithin } from './files/within.js';
import { MAX_CONFIG_BYTES, readTextFile } from './files/read-text.js';
import { RIG_FILES } from './gather/index.js';
import type { LogEvent, Site, Warning } from './model/index.js';
import { makeSkyObserver } from './sky/index.js';

/** How many folders above a log a rig file is looked for. */
const LOOK_UP = 6;
/** The Sun's centre above this is daylight: nobody exposes lights then, degrees. */
const DAYLIGHT_DEG = -3;
const DAY_MS = 86_400_000;

export type { Answer, Question } from './gather/dialects/index.js';

/** A starter dialect, and what to say of it. */
export interface DraftedDialect {
  /** The dialect, or `null` where the log is in one of nightledger's own formats and needs none. */
  readonly yaml: string | null;
  readonly summary: readonly string[];
  readonly warnings: readonly Warning[];
}

export interface DraftOptions {
  /** A session folder whose frames are compared with the log. */
  readonly session?: string;
  /** Time zone of the site, where no rig file above the log names it. */
  readonly zone?: string;
  /** The session and the rig file above the log are a stranger's: nothing that leads out of their folder is read. */
  readonly untrusted?: boolean;
  readonly nowMs: number;
}

/** Drafts a dialect from a log, and checks what it makes of it. @throws Error when there is no such file */
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
  const frames = options.session === undefined ? [] : await framesOf(options.session, options);
  const { yaml, report } = draftDialect(sample, { frames });
  const lines = report.rules.reduce((sum, rule) => sum + rule.count, 0);
  const checked = await checkDialect(dirname(path), basename(path), compiled('the draft', yaml), {
    zone: options.zone ?? rigAbove(path)?.rig.site?.timezone,
  });
  return {
    yaml,
    summary: [
      `${report.linesSeen} of ${report.totalLines} lines looked at, ${report.encoding}, ${report.lineEnding}`,
      report.stamp
        ? `time as ${report.stamp.pattern}, ` +
          `${report.zone === 'site' ? 'zone of the site unless the line says' : report.zone}`
        : 'no time found: write time.pattern by hand',
      `${report.rules.length} rules proposed for ${lines} lines; ${report.unused.length} kinds of line left over`,
      ...draftSummary(report, checked),
      ...agreementNotes(checked.read.events, frames),
    ],
    warnings: report.warnings,
  };
}

/**
 * Walks through what a draft of the log leaves over; see `askThrough`.
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
}

/** What a dialect makes of a log: as text for a terminal, as data, and as an event log. */
export interface CheckedLog {
  readonly text: string;
  readonly json: CheckJson;
  readonly eventLog: string;
}

/**
 * Checks what a dialect makes of a log.
 *
 * @throws ConfigError when the dialect cannot be used; Error when there is no such file
 */
export async function checkLog(log: string, options: CheckOptions): Promise<CheckedLog> {
  const path = logFile(log);
  const rig = rigAbove(path);
  const found =
    options.dialect === undefined
      ? fromRig(path, rig, options.untrusted ?? false)
      : { text: readConfig(resolve(options.dialect)), name: options.dialect, train: undefined };
  const drafted = found ? null : draftDialect(await readSample(dirname(path), basename(path)));
  const name = found?.name ?? 'a draft';
  const dialect = compiled(name, found?.text ?? drafted?.yaml ?? '');
  const report = await checkDialect(dirname(path), basename(path), dialect, {
    train: options.train ?? found?.train,
    zone: options.zone ?? rig?.rig.site?.timezone,
    sessionDate: options.date,
  });
  const frames = options.session === undefined ? [] : await framesOf(options.session, options);
  const notes = [
    ...(drafted
      ? ['No dialect was named and no rig file names one for this log: this is what `dialect draft` would make of it.']
      : []),
    ...daylightNotes(report.read.events, rig?.rig.site ?? null),
    ...yearNotes(report.read.events, options.nowMs),
    ...agreementNotes(report.read.events, frames),
  ];
  return { text: formatCheck(report, notes), json: checkJson(report), eventLog: eventLogText(report.read.events) };
}

/** The light frames of a session folder, in order of time. */
async function framesOf(
  session: string,
  { nowMs, untrusted }: { readonly nowMs: number; readonly untrusted?: boolean },
): Promise<FrameTimes[]> {
  const root = resolve(session);
  const files = listSessionFiles(root, [], untrusted).files.flatMap(({ path }) => (isFitsName(path) ? [path] : []));
  const { frames } = await readHeaderFrames(root, files, { nowMs });
  return frames
    .flatMap(({ file, kind, exposure, exposureSeconds = 0 }) =>
      kind !== 'light' || exposure === undefined ? [] : [{ file, beginMs: exposure.startMs, seconds: exposureSeconds }],
    )
    .sort((a, b) => a.beginMs - b.beginMs);
}

function agreementNotes(events: readonly LogEvent[], frames: readonly FrameTimes[]): string[] {
  const found = agreement(events, frames);
  return found === null ? [] : [agreementNote(found)];
}

/** Years in which no digital log was written, or that have not come yet. */
function yearNotes(events: readonly LogEvent[], nowMs: number): string[] {
  const odd = events.filter(({ atMs }) => !(atMs > Date.UTC(2000, 0, 1) && atMs < nowMs + DAY_MS));
  const [first] = odd;
  return first === undefined
    ? []
    : [
        `${odd.length} events lie before the year 2000 or in the future (the first on line ` +
          `${first.source.line ?? '?'}): is the time pattern right?`,
      ];
}

function readConfig(path: string): string {
  return readTextFile(path, { maxBytes: MAX_CONFIG_BYTES });
}

function logFile(log: string): string {
  const path = resolve(log);
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat) throw new Error(`there is no file ${log}`);
  if (!stat.isFile()) throw new Error(`${log} is a folder; name one log in it`);
  return path;
}

function compiled(name: string, text: string): CompiledDialect {
  const { dialect, warnings } = loadDialect(name, text);
  if (!dialect) throw new ConfigError(warnings.map((w) => w.message));
  return dialect;
}

/** The nearest rig file above a log that can be read; a broken one is no help here and is reported by `report`. */
function rigAbove(path: string): { rig: Rig; folder: string } | null {
  let folder = dirname(path);
  for (let i = 0; i < LOOK_UP; i++) {
    for (const name of RIG_FILES) {
      const file = join(folder, name);
      if (!existsSync(file)) continue;
      try {
        return { rig: parseRig(name, readConfig(file)).rig, folder };
      } catch {
        return null;
      }
    }
    if (dirname(folder) === folder) return null;
    folder = dirname(folder);
  }
  return null;
}

function fromRig(
  path: string,
  found: { rig: Rig; folder: string } | null,
  untrusted: boolean,
): { text: string; name: string; train?: string } | null {
  if (!found) return null;
  const inSession = relative(found.folder, path).split(sep).join('/');
  const selectors = [
    ...found.rig.trains.flatMap((t) => t.logs.map((log) => ({ ...log, train: t.id as string | undefined }))),
    ...(found.rig.guiding?.logs ?? []).map((log) => ({ ...log, train: undefined })),
  ];
  const named = selectors.find((s) => s.dialect !== undefined && pathMatcher(s.files)(inSession));
  if (named?.dialect === undefined) return null;
  const file = resolve(found.folder, named.dialect);
  if (untrusted && !isWithin(realpathSync(found.folder), realpathSync(file)))
    throw new ConfigError([
      `the dialect ${named.dialect} lies outside the session folder and was not read; name it with --dialect ` +
        'if you trust it',
    ]);
  return { text: readConfig(file), name: named.dialect, train: named.train };
}

/** Exposures in daylight: the zone of the dialect is likely wrong. */
function daylightNotes(events: readonly LogEvent[], site: Site | null): string[] {
  const begins = events.filter((e) => e.event === 'exposure-begin');
  if (!site || begins.length === 0) return [];
  const observer = makeSkyObserver(site);
  const inDaylight = begins.filter((e) => observer.at(e.atMs).sun.altitudeDeg > DAYLIGHT_DEG);
  const first = inDaylight[0];
  return first
    ? [
        `${inDaylight.length} of ${begins.length} exposures begin in daylight at ${site.name} (the ` +
          `first on line ${first.source.line ?? '?'}): is the dialect's time zone right?`,
      ]
    : [];
}
