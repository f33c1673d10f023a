/**
 * The last leg of the pipeline: nights into files. HTML and JSON always, the PDF where a browser is found.
 */
import { dirname, join } from 'node:path';
import type { Night } from './model/index.js';
import { jsonPieces, packParts, toRecord } from './record/index.js';
import {
  dayOf,
  Edition,
  FORMATS,
  keepLists,
  nightPages,
  type Earlier,
  type Format,
  type KeepLists,
  type PrintEdition,
} from './report/index.js';
import type { Press, PrintJob } from './report/pdf/index.js';

export interface ReportOptions {
  /** Folder to write to. */
  readonly out: string;
  readonly pdf: boolean;
  readonly paper: 'a4' | 'letter';
  /** Of the PDF; brief when absent. */
  readonly edition?: PrintEdition;
  /** Show UTC beside local time. */
  readonly utc?: boolean;
  /** Replace files in the folder that are not nightledger's. */
  readonly force?: boolean;
  /** Leave out what reveals the location of the site. */
  readonly share: boolean;
  /** Ids of further exports: `summary`, `card`. The table of frames is always written. */
  readonly also?: readonly string[];
  readonly nowMs: number;
  readonly version: string;
  /** The context of the nights' archive. A shared report is about its night only. */
  readonly earlier?: Earlier;
  readonly onProgress?: (done: number, total: number) => void;
  /** Called after each memory-intensive file, so that garbage can be collected. */
  readonly onStage?: () => void;
}

/** What was written, and what could not be. */
export interface Written {
  readonly files: readonly string[];
  /** Sentences on what could not be made, and what to do about it. */
  readonly failures: readonly string[];
}

/** Reports that were written. */
export interface ReportsWritten extends Written {
  /** The result of each night, in lines for a terminal. */
  readonly said: readonly (readonly string[])[];
  /** Path of each night's page, by its date. */
  readonly reports: ReadonlyMap<string, string>;
}

/**
 * Writes each night's report: into `out` itself for one night, into a folder per date for several. All of them are one
 * edition, which takes the place of the one before as a whole.
 *
 * @throws OutputRefused when the folder holds files of others; FileInUse or the file system's own error, with the
 *   folder as it was
 */
export async function writeReports(nights: readonly Night[], options: ReportOptions): Promise<ReportsWritten> {
  const edition = await Edition.open(options.out, {
    kind: 'night',
    of: nights.map((night) => night.date).join(', '),
    force: options.force,
    writtenMs: options.share ? dayOf(options.nowMs) : undefined,
  });
  // The browser comes up while the pages are made.
  const press = options.pdf ? (await import('./report/pdf/index.js')).openPress() : null;
  try {
    const shareNight = options.share ? (await import('./share.js')).shareNight : undefined;
    // Checks and writing concern the same displayed night.
    const shown = nights.map((night) => ({
      night: shareNight === undefined ? night : shareNight(night),
      date: night.date,
      folder: nights.length === 1 ? '' : `${night.date}/`,
    }));
    const placed = shown.map((one) => ({ ...one, keep: keepLists(one.night) }));
    const claimed = placed.flatMap(({ keep, folder }) =>
      [...namesOf(options), ...keep.lists.map(({ path }) => path)].map((name) => `${folder}${name}`),
    );
    edition.claim(claimed);
    const { failures, said } = await fill(edition, placed, press, options);
    const written = new Set(await edition.commit());
    return {
      // Named in the order in which they are read, not in that in which they were made.
      files: withListsAsFolder(claimed.map((name) => join(options.out, name)).filter((file) => written.has(file))),
      failures,
      said,
      reports: new Map(placed.map(({ date, folder }) => [date, join(options.out, `${folder}report.html`)])),
    };
  } catch (error) {
    edition.discard();
    throw error;
  } finally {
    await press?.close();
  }
}

const KEEP_LIST = /[\\/]frames[\\/][^\\/]+\.(kept|doubtful|lost)\.txt$/;

/** The lists of frames are many and small: their folder represents them. */
function withListsAsFolder(files: readonly string[]): string[] {
  return [...new Set(files.map((file) => (KEEP_LIST.test(file) ? dirname(file) : file)))];
}

function formatsOf({ also }: ReportOptions): readonly Format[] {
  return FORMATS.filter(({ id }) => id === 'frames' || also?.includes(id));
}

/** Names of the files of one night. */
function namesOf(options: ReportOptions): string[] {
  return [
    'report.html',
    'night.json',
    ...(options.pdf ? ['report.pdf'] : []),
    ...formatsOf(options).map(({ id, extension }) => `${id}.${extension}`),
  ];
}

/** Adds every night's files. @returns what could not be made, and the result of each night */
async function fill(
  edition: Edition,
  placed: readonly { readonly night: Night; readonly folder: string; readonly keep: KeepLists }[],
  press: Press | null,
  options: ReportOptions,
): Promise<Pick<ReportsWritten, 'failures' | 'said'>> {
  const { version, share } = options;
  const nowMs = share ? dayOf(options.nowMs) : options.nowMs;
  const pages: PrintJob[] = [];
  const failures: string[] = [];
  const said: (readonly string[])[] = [];
  const steps = placed.length * (press ? 2 : 1);
  let done = 0;
  for (const { night, folder, keep } of placed) {
    // Packed on another core while the rest is made.
    const parts = share ? null : packParts(night);
    parts?.catch(() => {});
    edition.announce(`${folder}report.html`);
    // Second in the list of what was written, though written last.
    edition.announce(`${folder}night.json`);
    const made = await nightPages(night, {
      share,
      nowMs,
      version,
      utc: options.utc,
      ...(share ? {} : { earlier: options.earlier }),
      onStage: options.onStage,
      forPaper: press !== null && options.edition === 'full',
    });
    said.push(made.said);
    await edition.add(`${folder}report.html`, made.page);
    options.onStage?.();
    for (const format of formatsOf(options))
      await edition.add(
        `${folder}${format.id}.${format.extension}`,
        await format.render(night, { nowMs, version, share }),
      );
    const { lists, unlisted } = keep;
    for (const { path, text } of lists) await edition.add(`${folder}${path}`, text);
    await edition.add(`${folder}night.json`, jsonPieces(toRecord(night, version, (await parts) ?? false)));
    options.onStage?.();
    if (unlisted > 0)
      failures.push(
        `${unlisted} ` +
          (unlisted === 1
            ? 'file has a line break in its name and is'
            : 'files have line breaks in their names and are') +
          ` in no list of frames; frames.csv names ${unlisted === 1 ? 'it' : 'them'}`,
      );
    if (press) pages.push({ ...made.print(options.edition ?? 'brief'), name: `${folder}report.pdf` });
    options.onProgress?.(++done, steps);
  }
  if (!press) return { failures, said };
  const printed = await press.print(pages, { paper: options.paper, onPage: () => options.onProgress?.(++done, steps) });
  for (const { name, pdf } of printed.pdfs) await edition.add(name, pdf);
  return { failures: [...failures, ...printed.failures], said };
}
