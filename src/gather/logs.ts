/**
 * The session's logs: which files, in which format, for which train; all read into events and guiding samples.
 */
import { closeSync, openSync, readSync, realpathSync } from 'node:fs';
import { resolve } from 'node:path';
import type { LogSelector, Rig } from '../config/index.js';
import { pathMatcher } from '../files/glob.js';
import { MAX_CONFIG_BYTES, readTextFile } from '../files/read-text.js';
import { isWithin } from '../files/within.js';
import {
  append,
  isTelling,
  lineTimesOf,
  mergeGuiding,
  type GuidingSeries,
  type InputFile,
  type LineTimes,
  type TellingEvent,
  type Warning,
} from '../model/index.js';
import type { CompiledDialect } from './dialects/reading.js';
import { readEventLog } from './event-log/index.js';
import { readGuidingCsv } from './guiding-log/index.js';
import { timesOfKnownTrains, withKnownTrains } from './known-trains.js';
import { isGuidingLog } from './own-format.js';
import { readingWarnings, type ReadLog } from './reading-warnings.js';
import { SeenEvents } from './repeated-events.js';

import type { SessionFile } from './session-files.js';
import { eachOnce } from './shared-logs.js';

/** Everything the logs say. */
export interface GatheredLogs {
  readonly events: readonly TellingEvent[];
  /** When the lines were written, notes among them. */
  readonly lineTimes: readonly LineTimes[];
  readonly guiding: GuidingSeries | null;
  readonly inputs: readonly InputFile[];
  readonly warnings: readonly Warning[];
}

interface LogJob extends ReadLog {
  /** IANA zone of times without one; absent: the site's. */
  readonly zone?: string;
}

/**
 * Reads every log the rig file names.
 *
 * @param circumstances `evening`: the first night's local date, `YYYY-MM-DD`, for logs that print no date; `untrusted`:
 *   dialects outside the session folder are refused
 */
export async function gatherLogs(
  root: string,
  files: readonly SessionFile[],
  rig: Rig,
  { evening, untrusted }: { readonly evening: string | undefined; readonly untrusted: boolean },
): Promise<GatheredLogs> {
  const warnings: Warning[] = [];
  const claimed = eachOnce<LogJob>([
    ...rig.trains.flatMap((t) =>
      select(files, t.logs, 'event-log', t.id, warnings).map((job) => ({ ...job, zone: t.logTimeZone })),
    ),
    ...select(files, rig.guiding?.logs ?? [], 'guiding-log', undefined, warnings),
  ]);
  const jobs = claimed.logs.map((job) => asGuiding(root, job));
  append(warnings, claimed.warnings);
  const dialects = await loadDialects(root, jobs, warnings, untrusted);
  const ids = rig.trains.map(({ id }) => id);
  const events: TellingEvent[] = [];
  const lineTimes: LineTimes[] = [];
  const seen = jobs.length > 1 ? new SeenEvents() : null;
  const series: GuidingSeries[] = [];
  const inputs: InputFile[] = [...dialects.inputs];

  for (const job of jobs) {
    const dialect = job.dialect === undefined ? undefined : dialects.byPath.get(job.dialect);
    // A dialect that could not be loaded has been reported; reading the log without it would only add noise.
    if (job.dialect !== undefined && !dialect) continue;
    const read = await readLog(root, job, dialect, { zone: job.zone ?? rig.site?.timezone, sessionDate: evening });
    // Ambiguous times prove nothing; the warning says what to do.
    const isOpen = read.warnings.some(({ code }) => code === 'undecided-date');
    const said = isOpen ? [] : read.events;
    const known = withKnownTrains(said.filter(isTelling), ids);
    const fresh = seen?.add(known.events) ?? { events: known.events, warnings: [] };
    append(events, fresh.events);
    append(lineTimes, timesOfKnownTrains((isOpen ? undefined : read.times) ?? lineTimesOf(said), ids));
    if (read.guiding && !isOpen) series.push(read.guiding);
    append(warnings, [...readingWarnings(job, read), ...known.warnings, ...fresh.warnings]);
    inputs.push({
      file: job.file.path,
      role: job.role,
      train: job.train,
      sizeBytes: read.sizeBytes,
      sha256: read.sha256 || undefined,
      lines: read.lines,
      understood: read.understood,
    });
  }
  return { events, lineTimes, guiding: mergeGuiding(series), inputs, warnings };
}

function select(
  files: readonly SessionFile[],
  selectors: readonly LogSelector[],
  role: LogJob['role'],
  train: string | undefined,
  warnings: Warning[],
): LogJob[] {
  return selectors.flatMap((selector) => {
    const matches = pathMatcher(selector.files);
    const found = files.filter((f) => matches(f.path));
    if (found.length === 0) {
      warnings.push({
        code: 'log-not-found',
        message:
          `no log matches ${selector.files.join(', ')}${train === undefined ? ' (guiding)' : ` (${train})`}; check ` +
          'the path, which is relative to the session folder and must be inside it',
        train,
      });
    }
    return found.map((file): LogJob => ({ file, role, train, dialect: selector.dialect }));
  });
}

/** Guiding samples of our own format among a train's logs are read as what they are. */
function asGuiding(root: string, job: LogJob): LogJob {
  const isMisplaced = job.role === 'event-log' && job.dialect === undefined && isGuidingLog(root, job.file);
  return isMisplaced ? { ...job, role: 'guiding-log', isMisplaced } : job;
}

async function loadDialects(root: string, jobs: readonly LogJob[], warnings: Warning[], untrusted: boolean) {
  const byPath = new Map<string, CompiledDialect>();
  const inputs: InputFile[] = [];
  const paths = [...new Set(jobs.flatMap((j) => (j.dialect === undefined ? [] : [j.dialect])))];
  if (paths.length === 0) return { byPath, inputs };
  const { loadDialect } = await import('./dialects/reading.js');
  for (const path of paths) {
    try {
      if (!isWithin(realpathSync(root), realpathSync(resolve(root, path)))) {
        warnings.push({
          code: 'dialect-outside',
          message:
            `the dialect ${path} is outside the session ` +
            'folder' +
            (untrusted
              ? '; it was not read, and the logs written in it are left out'
              : ' and was read; with --untrusted it would not be'),
          source: { file: path },
        });
        if (untrusted) continue;
      }
      const text = readTextFile(resolve(root, path), { maxBytes: MAX_CONFIG_BYTES, name: path });
      const loaded = loadDialect(path, text);
      append(warnings, loaded.warnings);
      if (loaded.dialect) byPath.set(path, loaded.dialect);
      inputs.push({ file: path, role: 'dialect', sizeBytes: Buffer.byteLength(text) });
    } catch (error) {
      warnings.push({
        code: 'dialect-unreadable',
        message:
          `the dialect ${path} could not be read (${(error as Error).message.split(',')[0]}); the logs ` +
          'written in it are left out. Its path is relative to the session folder',
        source: { file: path },
      });
    }
  }
  return { byPath, inputs };
}

async function readLog(
  root: string,
  job: LogJob,
  dialect: CompiledDialect | undefined,
  when: { zone?: string; sessionDate?: string },
) {
  if (dialect) {
    const { readDialectLog } = await import('./dialects/reading.js');
    return readDialectLog(root, job.file.path, dialect, { train: job.train, ...when });
  }
  if (job.isMisplaced || (job.role === 'guiding-log' && !looksLikeJson(resolve(root, job.file.path)))) {
    const read = await readGuidingCsv(root, job.file.path);
    return { ...read, events: [], guiding: read.series ?? undefined };
  }
  return readEventLog(root, job.file.path, { train: job.train, notes: 'times' });
}

/** Whether the first visible character opens a JSON object. A file that cannot be opened is reported by its reader. */
function looksLikeJson(path: string): boolean {
  if (/\.jsonl?(\.gz)?$|\.ndjson(\.gz)?$/i.test(path)) return true;
  try {
    const file = openSync(path, 'r');
    try {
      const head = Buffer.alloc(256);
      const length = readSync(file, head, 0, head.length, 0);
      return head
        .toString('utf8', 0, length)
        .replace(/^\uFEFF/, '')
        .trimStart()
        .startsWith('{');
    } finally {
      closeSync(file);
    }
  } catch {
    return false;
  }
}
