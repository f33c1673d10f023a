/**
 * The journey of many nights: sessions into the archive, and the archive into progress and outlook.
 * record → progress → outlook (with the sky) → report.
 */
import { createHash } from 'node:crypto';
import { existsSync, realpathSync } from 'node:fs';
import { isAbsolute, join, relative, sep } from 'node:path';
import { archivedNights, mergeLate, readGoals, siteKeyOf } from './archive-nights.js';
import { withLock } from './files/lock.js';
import type { Imported, ImportOptions } from './header-import.js';
import { lookAhead } from './look-ahead.js';
import type { Counting, GoalsBook, Night, NightSummary, Progress, Warning } from './model/index.js';
import { planAhead } from './plan-ahead.js';
import { sharePlan } from './plan/index.js';
import { countingNotices, progressOf, shareOutlook, shareProgress } from './progress/index.js';
import { shareNights } from './share-nights.js';
import { addSession, forArchive, type Added, type ReadingOptions, type Remembering } from './record/index.js';
import { writeAtomically } from './files/write-atomically.js';
import { dayOf, drawProgress, Edition, progressPages, toProgressJson } from './report/index.js';
import type { Written } from './output.js';
import type { Press } from './report/pdf/index.js';

export { archivedNights, earlierNights } from './archive-nights.js';
export type { Imported } from './header-import.js';

export { startDrawing } from './report/index.js';
export type { Added, Remembering } from './record/index.js';

const LOCK = { what: 'the archive' };

/** Nights that the progress page plans. */
const PLANNED_NIGHTS = 14;

export interface AddOptions {
  /** The folder the nights were read from. */
  readonly session: string;
  /** The location of each night's report, by its date. */
  readonly reports: ReadonlyMap<string, string>;
  readonly version: string;
}

/**
 * Adds reported nights to an archive, which is made when missing.
 *
 * @throws FolderLocked when another program keeps writing to it
 */
export async function addNights(
  archive: string,
  nights: readonly Night[],
  { session, reports, version }: AddOptions,
): Promise<Added[]> {
  return withLock(
    archive,
    async () => {
      const added: Added[] = [];
      for (const night of nights) {
        const report = reports.get(night.date);
        const facts = {
          session: sessionName(session),
          report: report === undefined ? null : wayFrom(archive, report),
        };
        added.push(await addSession(archive, forArchive(night, facts, version), writeAtomically, mergeLate));
      }
      return added;
    },
    LOCK,
  );
}

/**
 * Imports folders of frames without logs, one after another.
 *
 * @throws FolderLocked, ConfigError; Error when a folder cannot be read
 */
export async function addFolders(
  archive: string,
  folders: readonly string[],
  options: Omit<ImportOptions, 'session' | 'skip' | 'write'>,
): Promise<Imported[]> {
  // Other commands do without it.
  const { importHeaders } = await import('./header-import.js');
  return withLock(
    archive,
    async () => {
      const imported: Imported[] = [];
      for (const folder of folders) {
        imported.push(
          await importHeaders(archive, folder, {
            ...options,
            session: sessionName(folder),
            skip: [archive],
            write: writeAtomically,
          }),
        );
      }
      return imported;
    },
    LOCK,
  );
}

/**
 * The name by which a session's folder is known: the same folder has the same name, which does not reveal its location.
 */
function sessionName(folder: string): string {
  return createHash('sha256').update(realpathSync(folder)).digest('hex').slice(0, 12);
}

/** The relative path to a file, forward slashes; `null` if there is none, as from one drive to another. */
function wayFrom(folder: string, file: string): string | null {
  const way = relative(folder, file);
  return isAbsolute(way) ? null : portable(way);
}

function portable(path: string): string {
  return sep === '/' ? path : path.split(sep).join('/');
}

export interface ProgressOptions {
  readonly out: string;
  readonly pdf: boolean;
  readonly paper: 'a4' | 'letter';
  /** Replace files in the folder that are not nightledger's. */
  readonly force?: boolean;
  /** Leave out the site's name and the links to reports. */
  readonly share: boolean;
  /** How kept time is counted, and with it goals. */
  readonly counting?: Counting;
  /** First evening of the outlook, `YYYY-MM-DD`; without it tonight, or the evening after the last night. */
  readonly from?: string;
  readonly nowMs: number;
  readonly version: string;
  /** Where the sums of records are kept between runs. */
  readonly remembering?: Remembering;
  readonly onProgress?: (what: 'records' | 'pages', done: number, total: number) => void;
}

interface ProgressWritten extends Written {
  readonly warnings: readonly Warning[];
}

/**
 * Writes the progress of an archive: page, paper and JSON.
 *
 * @throws ConfigError when the goals file cannot be used; OutputRefused when the folder holds files of others; Error
 *   when the archive cannot be read or holds no nights
 */
export async function writeProgress(archive: string, options: ProgressOptions): Promise<ProgressWritten> {
  const reading: ReadingOptions = {
    counting: options.counting,
    onProgress: (done, total) => options.onProgress?.('records', done, total),
  };
  const { nights, warnings } = await archivedNights(archive, reading, options.remembering);
  const goals = readGoals(archive);
  const notices = [...countingNotices(nights, options.counting), ...warnings, ...goals.warnings];
  if (nights.length === 0) {
    const why = notices.map((w) => w.message).join('\n');
    throw new Error(
      `${archive} holds no night records; add some with \`nightledger report SESSION --archive\` or ` +
        `\`nightledger archive add\`${why === '' ? '' : `\n${why}`}`,
    );
  }
  // The browser comes up while the page is made.
  const press = options.pdf ? (await import('./report/pdf/index.js')).openPress() : null;
  try {
    return await progressFiles(archive, { nights, notices, book: goals.book }, press, options);
  } finally {
    await press?.close();
  }
}

/** The inputs of an archive's progress. */
interface ProgressSource {
  readonly nights: readonly NightSummary[];
  readonly notices: readonly Warning[];
  readonly book: GoalsBook;
}

async function progressFiles(
  archive: string,
  { nights, notices, book }: ProgressSource,
  press: Press | null,
  options: ProgressOptions,
): Promise<ProgressWritten> {
  // A shared page is made of shared nights from the start: what is not there cannot leak.
  const shown = options.share ? shareNights(nights) : { nights, siteKey: siteKeyOf(nights) };
  const { siteKey } = shown;
  const summed = progressOf(shown.nights, book, siteKey);
  const whole: Progress = { ...summed, notices: [...notices, ...summed.notices] };
  const progress = options.share ? shareProgress(whole) : whole;
  const writtenMs = options.share ? dayOf(options.nowMs) : undefined;
  const page = {
    ...options,
    nowMs: writtenMs ?? options.nowMs,
    forPaper: press !== null,
    linkTo: linker(archive, options),
  };
  const pictures = drawProgress(progress, page);
  const ahead = lookAhead(whole, book, siteKey, options);
  const outlook = options.share ? ahead && shareOutlook(ahead) : ahead;
  const coming = planAhead(whole, ahead, book, siteKey, { ...options, nights: PLANNED_NIGHTS });
  const plan = options.share ? coming && sharePlan(coming) : coming;
  const context = { ...page, plan };
  const pages = await progressPages(progress, outlook, { ...context, pictures });
  const { out, force } = options;
  const edition = await Edition.open(out, { kind: 'progress', of: 'an archive', force, writtenMs });
  try {
    edition.claim(['progress.html', 'progress.json', ...(options.pdf ? ['progress.pdf'] : [])]);
    await edition.add('progress.html', pages.page);
    await edition.add('progress.json', `${JSON.stringify(toProgressJson(progress, outlook, context), null, 1)}\n`);
    options.onProgress?.('pages', 1, options.pdf ? 2 : 1);
    const failures: string[] = [];
    if (press) {
      const printed = await press.print([{ html: () => pages.print(), name: 'progress.pdf' }], {
        paper: options.paper,
        onPage: () => options.onProgress?.('pages', 2, 2),
      });
      for (const { name, pdf } of printed.pdfs) await edition.add(name, pdf);
      failures.push(...printed.failures);
    }
    return { files: await edition.commit(), failures, warnings: whole.notices };
  } catch (error) {
    edition.discard();
    throw error;
  }
}

/** Turns a report's place in the archive into a link from the page, if the report is still there. */
function linker(archive: string, { out, share }: ProgressOptions): (report: string | null) => string | null {
  return (report) => {
    if (report === null || share) return null;
    const path = join(archive, report);
    const way = existsSync(path) ? wayFrom(out, path) : null;
    return way === null ? null : way.split('/').map(encodeURIComponent).join('/');
  };
}
