/**
 * The last leg of the pipeline: nights into files. HTML and JSON always, the PDF where a browser is found.
 */
import { join } from 'node:path';
import type { Night } from './model/index.js';
import { toRecord } from './record/index.js';
import { FORMATS, redactNight, renderHtml, writeAtomically } from './report/index.js';

export interface ReportOptions {
  /** Folder to write to. */
  readonly out: string;
  readonly pdf: boolean;
  readonly paper: 'a4' | 'letter';
  /** Leave out what tells where home is. */
  readonly share: boolean;
  /** Ids of further exports: `summary`, `card`, `frames`. */
  readonly also?: readonly string[];
  readonly nowMs: number;
  readonly version: string;
  readonly onProgress?: (done: number, total: number) => void;
}

/** What was written, and what has to be said about it. */
export interface Written {
  readonly files: readonly string[];
  readonly notes: readonly string[];
}

/** Reports that were written. */
export interface ReportsWritten extends Written {
  /** Path of each night's page, by its date. */
  readonly reports: ReadonlyMap<string, string>;
}

/** Writes each night's report: into `out` itself for one night, into a folder per date for several. */
export async function writeReports(nights: readonly Night[], options: ReportOptions): Promise<ReportsWritten> {
  const files: string[] = [];
  const exports: string[] = [];
  const reports = new Map<string, string>();
  const pages: { html: string; file: string }[] = [];
  const steps = nights.length * (options.pdf ? 2 : 1);
  let done = 0;
  for (const original of nights) {
    const night = options.share ? redactNight(original) : original;
    const folder = nights.length === 1 ? options.out : join(options.out, night.date);
    const html = await renderHtml(night, { share: options.share, nowMs: options.nowMs, version: options.version });
    const record = toRecord(night, options.version);
    await writeAtomically(join(folder, 'report.html'), html);
    await writeAtomically(join(folder, 'night.json'), `${JSON.stringify(record, null, 2)}\n`);
    for (const format of FORMATS.filter(({ id }) => options.also?.includes(id))) {
      const file = join(folder, `${format.id}.${format.extension}`);
      await writeAtomically(file, await format.render(night, { nowMs: options.nowMs, version: options.version }));
      exports.push(file);
    }
    reports.set(night.date, join(folder, 'report.html'));
    files.push(join(folder, 'report.html'), join(folder, 'night.json'));
    pages.push({ html, file: join(folder, 'report.pdf') });
    options.onProgress?.(++done, steps);
  }
  if (!options.pdf) return { files: [...files, ...exports], reports, notes: [] };
  const { printPdfs } = await import('./report/pdf/index.js');
  const printed = await printPdfs(pages, { paper: options.paper, onPage: () => options.onProgress?.(++done, steps) });
  return { files: [...files, ...printed.files, ...exports], reports, notes: printed.notes };
}
