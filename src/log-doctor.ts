/**
 * A joint for one log at a time: drafting a dialect for it, and checking what a dialect makes of it.
 */
import { existsSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { ConfigError, parseRig, type Rig } from './config/index.js';
import {
  checkDialect,
  draftDialect,
  formatCheck,
  loadDialect,
  readSample,
  type CompiledDialect,
} from './gather/dialects/index.js';
import { pathMatcher } from './files/glob.js';
import { MAX_CONFIG_BYTES, readTextFile } from './files/read-text.js';
import { RIG_FILES } from './gather/index.js';
import type { LogEvent, Site, Warning } from './model/index.js';
import { makeSkyObserver } from './sky/index.js';

/** How many folders above a log a rig file is looked for. */
const LOOK_UP = 6;
/** The Sun's centre above this is daylight: nobody exposes lights then, degrees. */
const DAYLIGHT_DEG = -3;

/** A starter dialect, and what to say of it. */
export interface DraftedDialect {
  readonly yaml: string;
  readonly summary: readonly string[];
  readonly warnings: readonly Warning[];
}

/** Drafts a dialect from a log. @throws Error when there is no such file */
export async function draftFor(log: string): Promise<DraftedDialect> {
  const path = logFile(log);
  const sample = await readSample(dirname(path), basename(path));
  const { yaml, report } = draftDialect(sample);
  const lines = report.rules.reduce((sum, rule) => sum + rule.count, 0);
  return {
    yaml,
    summary: [
      `${report.linesSeen} of ${report.totalLines} lines looked at, ${report.encoding}, ${report.lineEnding}`,
      report.stamp
        ? `time as ${report.stamp.pattern}, ${report.zone === 'utc' ? 'UTC' : 'zone of the site unless the line says'}`
        : 'no time found: write time.pattern by hand',
      `${report.rules.length} rules proposed for ${lines} lines; ${report.unused.length} kinds of line left over`,
    ],
    warnings: report.warnings,
  };
}

export interface CheckOptions {
  /** A dialect file; absent: the one the rig file names for this log, else a draft. */
  readonly dialect?: string;
  readonly train?: string;
  readonly zone?: string;
  readonly date?: string;
}

/**
 * Checks what a dialect makes of a log, as text for a terminal.
 *
 * @throws ConfigError when the dialect cannot be used; Error when there is no such file
 */
export async function checkLog(log: string, options: CheckOptions): Promise<string> {
  const path = logFile(log);
  const rig = rigAbove(path);
  const found =
    options.dialect === undefined
      ? fromRig(path, rig)
      : { text: readConfig(resolve(options.dialect)), name: options.dialect, train: undefined };
  const drafted = found ? null : draftDialect(await readSample(dirname(path), basename(path)));
  const name = found?.name ?? 'a draft';
  const dialect = compiled(name, found?.text ?? drafted?.yaml ?? '');
  const report = await checkDialect(dirname(path), basename(path), dialect, {
    train: options.train ?? found?.train,
    zone: options.zone ?? rig?.rig.site?.timezone,
    sessionDate: options.date,
  });
  const notes = [
    ...(drafted
      ? ['No dialect was named and no rig file names one for this log: this is what `dialect draft` would make of it.']
      : []),
    ...daylightNotes(report.read.events, rig?.rig.site ?? null),
  ];
  return formatCheck(report, notes);
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

/** The nearest rig file above a log that can be read; a broken one is no help here and is told by `report`. */
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
): { text: string; name: string; train?: string } | null {
  if (!found) return null;
  const inSession = relative(found.folder, path).split(sep).join('/');
  const selectors = [
    ...found.rig.trains.flatMap((t) => t.logs.map((log) => ({ ...log, train: t.id as string | undefined }))),
    ...(found.rig.guiding?.logs ?? []).map((log) => ({ ...log, train: undefined })),
  ];
  const named = selectors.find((s) => s.dialect !== undefined && pathMatcher(s.files)(inSession));
  if (named?.dialect === undefined) return null;
  return { text: readConfig(resolve(found.folder, named.dialect)), name: named.dialect, train: named.train };
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
        `${inDaylight.length} of ${begins.length} exposures begin in daylight at ${site.name} (the first on line ${first.source.line ?? '?'}): is the dialect's time zone right?`,
      ]
    : [];
}
