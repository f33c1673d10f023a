/**
 * Pages of the invented nights and of the samples, rendered once for all test files: whoever needs one first writes
 * it to a folder that the set-up makes for one run of the tests.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { inject } from 'vitest';
import { CHART_WIDTH, type ChartSize } from '../../src/report/charts/chart.js';
import type { DrawPicture } from '../../src/report/charts/thread.js';
import type { PrintWork } from '../../src/report/pdf/index.js';
import type { PrintEdition } from '../../src/report/index.js';
import { drawnOnce, undrawn, withoutDrawing } from './drawn-once.js';
import { exhibits, type Exhibit } from './gallery.js';
import { inFull } from './runs.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** The page of a night, by the name that the gallery gives it. */
export async function renderedNight(name: string): Promise<string> {
  const folder = inject('renderedPages');
  const file = join(folder ?? '', `${name}.html`);
  if (folder !== undefined && existsSync(file)) return readFileSync(file, 'utf8');
  const { html } = await exhibit(name);
  if (folder === undefined) return html;
  // Written beside and renamed: another file's tests may look for it meanwhile.
  mkdirSync(folder, { recursive: true });
  const beside = `${file}.${process.pid}`;
  writeFileSync(beside, html);
  renameSync(beside, file);
  return html;
}

/** The page of a night with empty charts, for who reads its words: drawing takes half of a page's time. */
export function undrawnNight(name: string): Promise<string> {
  return withoutDrawing(async () => (await shown(name)).html);
}

/** What is printed of a night, set anew for each printing. */
export async function printOf(name: string, edition: PrintEdition): Promise<PrintWork> {
  const one = known.get(name) ?? (inFull(false, edition === 'full') ? fullOf(name) : exhibit(name));
  return (await one).pages.print(edition);
}

const known = new Map<string, Promise<Exhibit>>();
const fullOnes = new Map<string, Promise<Exhibit>>();

/** Draws pictures of these sizes, and leaves others empty: each is drawn at all of them, and an edition shows one. */
export const drawnAt = (...sizes: readonly ChartSize[]): DrawPicture => {
  const widths = sizes.map((size) => CHART_WIDTH[size]);
  return (job) => (widths.includes(job.widthPx) ? drawnOnce(job) : undrawn(job));
};

/** What pages show, and the brief edition. */
export const ON_PAGES = inFull<DrawPicture>(drawnOnce, drawnAt('wide', 'narrow'));

let pairedIds: ReadonlySet<string> | undefined;

/** Ids of the pictures that have half of the paper's width, as the templates have them. */
function paired(): ReadonlySet<string> {
  const sections = join(ROOT, 'templates', 'sections');
  pairedIds ??= new Set(
    readdirSync(sections)
      .flatMap(
        (file) => readFileSync(join(sections, file), 'utf8').match(/(?<=<div class="pair">)(?:\{\{[^}]*\}\})+/g) ?? [],
      )
      .flatMap((charts) => [...charts.matchAll(/> chart charts\.([\w-]+)/g)].map(([, id = '']) => `${id}-narrow`)),
  );
  return pairedIds;
}

/** What the full edition shows: pictures across the paper, and small ones that stand side by side. */
const ON_FULL: DrawPicture = (job) =>
  job.widthPx === CHART_WIDTH.paper || paired().has(job.id) ? drawnOnce(job) : undrawn(job);

/** A night of which nothing but the full edition is wanted. */
function fullOf(name: string): Promise<Exhibit> {
  const one = fullOnes.get(name) ?? withoutDrawing(() => shown(name), ON_FULL);
  fullOnes.set(name, one);
  return one;
}

/** For page and print of a night together, in `npm test` without its full edition; made once in a process. */
function exhibit(name: string): Promise<Exhibit> {
  const one = known.get(name) ?? withoutDrawing(() => shown(name), ON_PAGES);
  known.set(name, one);
  return one;
}

async function shown(name: string): Promise<Exhibit> {
  const [one] = await exhibits(ROOT, [name]);
  if (!one) throw new RangeError(`the gallery shows nothing called ${name}`);
  return one;
}

declare module 'vitest' {
  interface ProvidedContext {
    /** Folder of pages and nights made in this run; none where a single file of tests is run from its sources. */
    renderedPages?: string;
  }
}
