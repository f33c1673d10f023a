/** The report stage: one night as a page, as paper, and in small formats for sharing. */
import type { Night } from '../model/index.js';
import { renderBriefPrint, renderFullPrint, renderPage } from './html/render.js';
import { nightView, type ViewOptions } from './html/view/index.js';
import { saidOf } from './text/said.js';

import type { PrintWork } from './pdf/impression.js';

export { writeAtomically } from '../files/write-atomically.js';
export { Edition, OutputRefused } from './edition/index.js';
export { startDrawing } from './charts/thread.js';
export { dayOf } from './made.js';
export {
  drawProgress,
  PROGRESS_SCHEMA,
  progressPages,
  toProgressJson,
  type ProgressPageOptions,
} from './progress/index.js';
export { PLAN_SCHEMA, planText, renderPlan, toPlanJson, type PlanPageOptions } from './plan/index.js';
export { keepLists, type KeepLists } from './formats/keep-lists.js';
export { FORMATS, type Format, type FormatContext } from './formats/index.js';
export type { Earlier } from './figures/goals.js';
export type { ViewOptions as RenderOptions } from './html/view/index.js';

/** Editions on paper: a few pages to send, or everything. */
export const PRINT_EDITIONS = ['brief', 'full'] as const;
export type PrintEdition = (typeof PRINT_EDITIONS)[number];

/** Pages of the brief edition. */
export const BRIEF_PAGES = 4;

/** One night, ready to be written. */
export interface NightPages {
  /**
   * One self-contained HTML file: fonts, pictures, styles and script are embedded, it loads nothing, and it is complete
   * without script.
   */
  readonly page: string;
  /** The result of the night, and what to do on the next one: a line each, for a terminal. */
  readonly said: readonly string[];
  /** What a browser prints for an edition on paper. */
  print(edition: PrintEdition): PrintWork;
}

/**
 * Builds a night's view once, for screen and paper.
 *
 * @param options `nowMs` (UTC ms) and `version` appear in the colophon; `share` marks a night to be shared: times count
 * from its first exposure
 */
export async function nightPages(night: Night, options: ViewOptions): Promise<NightPages> {
  const view = await nightView(night, options);
  return {
    page: renderPage(view),
    said: saidOf(view),
    print: (edition) =>
      edition === 'brief'
        ? { mostPages: BRIEF_PAGES, html: ({ level }) => renderBriefPrint(view, level) }
        : { numbersPages: true, html: ({ pageOf }) => renderFullPrint(view, pageOf) },
  };
}

/** The page of a single night. Options as for {@link nightPages}. */
export async function renderHtml(night: Night, options: ViewOptions): Promise<string> {
  return renderPage(await nightView(night, options));
}
