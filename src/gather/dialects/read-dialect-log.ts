import { basename } from 'node:path/posix';
import { itemAt } from '../../model/collections.js';
import type { LogEvent } from '../../model/index.js';
import type { DocumentLines } from '../lines/document-buffer.js';
import type { LogRead } from '../lines/log-read.js';
import { readLines } from '../lines/read-lines.js';
import { WarningTally } from '../lines/warning-tally.js';
import { baseBelow } from './base-below.js';
import type { CompiledDialect } from './compiled.js';
import { firstDateMs } from './date-below.js';
import { documentLines } from './document/document-records.js';
import { tableLines } from './document/table-rows.js';
import { DialectReader, type LineObserver } from './dialect-reader.js';
import { orderByNight } from './order-by-night.js';
import { sheetText } from './sheet/sheet-rows.js';
import { CountBase } from './time/count-base.js';
import { LogClock } from './time/log-clock.js';
import { newStamp } from './time/stamp.js';
import { fixedZone, zoneByName, type Zone } from './time/zone.js';
import { openOrder } from './undecided-date.js';

/** What the rig file and the night determine about a log. */
export interface DialectLogOptions {
  /** The train whose log this is; a train named by the line, or by the dialect, takes precedence. */
  readonly train?: string;
  /** The site's IANA zone, for dialects whose times are the site's. */
  readonly zone?: string;
  /** The evening's local date, `YYYY-MM-DD`, for logs that print no date. */
  readonly sessionDate?: string;
  /** Only about this many lines at the beginning are read: for a preview of a log of any size. */
  readonly firstLines?: number;
}

/**
 * Reads a log with its dialect. Any size, with memory proportional to the events and samples; never throws, and takes
 * time linear in the log whatever the dialect.
 *
 * @param rootDir the session folder
 * @param relativePath the log, relative to it, with forward slashes
 */
export async function readDialectLog(
  rootDir: string,
  relativePath: string,
  dialect: CompiledDialect,
  options: DialectLogOptions = {},
): Promise<LogRead> {
  return readObserved(rootDir, relativePath, dialect, options, null);
}

/** Number of lines at the beginning that determine the night of a log. */
const LINES_OF_NIGHT = 2000;

/** The same, with an observer that is notified of the fate of every line. */
export async function readObserved(
  rootDir: string,
  relativePath: string,
  dialect: CompiledDialect,
  options: DialectLogOptions,
  observer: LineObserver | null,
): Promise<LogRead> {
  const ordered = await orderByNight(dialect, options.sessionDate, (one) =>
    readInOrder(rootDir, relativePath, one, { ...options, firstLines: LINES_OF_NIGHT }, null),
  );
  const read = await readInOrder(rootDir, relativePath, ordered.dialect, options, observer);
  return ordered.isOpen ? { ...read, warnings: [openOrder(relativePath, dialect), ...read.warnings] } : read;
}

async function readInOrder(
  rootDir: string,
  relativePath: string,
  dialect: CompiledDialect,
  options: DialectLogOptions,
  observer: LineObserver | null,
): Promise<LogRead> {
  const tally = new WarningTally(relativePath);
  const firstMs = await firstDateMs(rootDir, relativePath, dialect, wholeText(dialect));
  const whole = wholeText(dialect);
  const clockOf = (own: WarningTally, base: CountBase | null): LogClock =>
    makeClock(dialect, relativePath, options, own, firstMs, base);
  const clock = clockOf(tally, await baseBelow(rootDir, relativePath, dialect, whole, (own) => clockOf(own, null)));
  const reader = new DialectReader(
    dialect,
    relativePath,
    trainOfLog(dialect, relativePath, options),
    clock,
    tally,
    observer,
  );
  const { firstLines = Infinity } = options;
  const file = await readLines(
    rootDir,
    relativePath,
    dialect.encoding,
    tally,
    (block) => {
      if (block.firstLine <= firstLines) reader.take(block);
    },
    dialect.objects,
    wholeText(dialect),
  );
  reader.finish();
  clock.finish();
  if (file.lines > 0 && reader.matched === 0) {
    tally.add(
      'nothing-matched',
      0,
      () =>
        `No line of ${relativePath} matched the dialect "${dialect.name}"; compare them with: ` +
        'nightledger dialect check.',
    );
  }
  if (dialect.budget.isSpent) {
    tally.add(
      'costly-patterns',
      0,
      () =>
        `The patterns of the dialect "${dialect.name}" took too long; from some line of ` +
        `${relativePath} on they were no longer tried. Give each pattern a few words exactly as they are ` +
        'in the log, and lower repeat counts.',
    );
  }
  const guiding = reader.samples.toSeries([{ file: relativePath }]);
  if (!reader.samples.inOrder) {
    tally.add(
      'unsorted-samples',
      0,
      () => `The guiding samples of ${relativePath} are not in the order of their times; they were sorted.`,
    );
  }
  return {
    events: inOrderOfTime(reader.events),
    ...(guiding === null ? {} : { guiding }),
    understood: reader.understood,
    ...file,
    warnings: tally.list(),
  };
}

/** How a log that has to be seen as a whole becomes lines; `null` for one that is read line by line. */
function wholeText({ isRows, isSheet, document }: CompiledDialect): DocumentLines | null {
  if (isSheet) return sheetText();
  if (isRows) return tableLines();
  return document === null ? null : documentLines(document);
}

/** Minimum fraction of backward steps in a newest-first log. */
const BACK = 0.8;
const MIN_BACK = 10;

/** The events of a newest-first log in reverse order, including those of one instant. */
function inOrderOfTime(events: readonly LogEvent[]): readonly LogEvent[] {
  let back = 0;
  let moving = 0;
  for (let i = 1; i < events.length; i++) {
    const stepMs = itemAt(events, i).atMs - itemAt(events, i - 1).atMs;
    if (stepMs !== 0) moving++;
    if (stepMs < 0) back++;
  }
  return back >= MIN_BACK && back >= BACK * moving ? [...events].reverse() : events;
}

/**
 * The clock of one log, by its dialect and the known facts of the night.
 *
 * @param firstDateMs the first date that the log states, wherever it stands; NaN if unknown
 * @param wholeBase what relative times count from, if a line further down says so; otherwise `null`
 */
export function makeClock(
  dialect: CompiledDialect,
  path: string,
  options: DialectLogOptions,
  tally: WarningTally,
  firstDateMs = NaN,
  wholeBase: CountBase | null = null,
): LogClock {
  const { date } = dialect.time;
  let startMs = firstDateMs;
  if (date.from === 'session') startMs = Date.parse(`${options.sessionDate ?? ''}T00:00:00Z`);
  if (date.from === 'file') startMs = dateInName(date, path);
  if (Number.isNaN(startMs) && (date.from === 'session' || date.from === 'file')) {
    tally.add('no-date', 0, () =>
      date.from === 'session'
        ? `${path} prints no date, and none is known for the night; its lines cannot be placed. Name ` +
          'the date in the dialect ("time.date").'
        : `The name of ${path} does not contain a date in the form that the dialect states ` +
          '("time.date.file"); its lines cannot be placed.',
    );
  }
  const evening = date.from === 'session' || (date.from !== 'line' && date.evening);
  const clock = new LogClock(
    dialect.time,
    zoneFor(dialect, path, options, tally),
    startMs,
    evening,
    tally,
    yearOf(date, path),
    wholeBase ?? fixedBase(dialect),
  );
  if (dialect.baseInName !== null) clock.startInName(basename(path), dialect.baseInName);
  return clock;
}

function fixedBase({ fixedBaseMs, time }: CompiledDialect): CountBase {
  const base = new CountBase();
  if (!Number.isNaN(fixedBaseMs)) base.set(fixedBaseMs - time.aheadMs, false);
  return base;
}

/** The year of dates in header lines without one. */
function yearOf(date: CompiledDialect['time']['date'], path: string): number {
  if (date.from !== 'header' || date.year === undefined) return NaN;
  return date.year === 'file' ? yearIn(basename(path)) : date.year;
}

/** The first number in a name that is a plausible year, NaN if there is none. */
export function yearIn(name: string): number {
  return Number(/(?<!\d)20\d{2}/.exec(name)?.[0] ?? NaN);
}

function dateInName(date: Extract<CompiledDialect['time']['date'], { from: 'file' }>, path: string): number {
  const name = Buffer.from(basename(path));
  const stamp = newStamp();
  return date.pattern.find(name, 0, name.length, stamp) ? Math.floor(stamp.ms / 86_400_000) * 86_400_000 : NaN;
}

function zoneFor(dialect: CompiledDialect, path: string, options: DialectLogOptions, tally: WarningTally): Zone {
  if (dialect.time.zone !== 'site') return dialect.time.zone;
  const zone = options.zone === undefined ? null : zoneByName(options.zone);
  if (zone !== null) return zone;
  if (dialect.time.patterns.some((pattern) => !pattern.hasOffset && pattern.kind !== 'elapsed')) {
    tally.add(
      'no-zone',
      0,
      () =>
        `The times of ${path} are the site's, whose time zone is not known; they were read as UTC. ` +
        'Name the zone in the rig file ("site.timezone") or in the dialect ("time.zone").',
    );
  }
  return fixedZone('UTC', 0);
}

function trainOfLog(dialect: CompiledDialect, path: string, options: DialectLogOptions): string | undefined {
  if (dialect.train === null) return options.train;
  if (typeof dialect.train === 'string') return dialect.trains.get(dialect.train) ?? dialect.train;
  const captures = dialect.train.exec(basename(path));
  const name = captures?.[dialect.train.groups.get('train') ?? 0];
  return name === undefined ? options.train : (dialect.trains.get(name) ?? name);
}
