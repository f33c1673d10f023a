/** The progress of many nights as a page. */
import type { Outlook, Progress } from '../../model/index.js';
import { renderView } from '../html/render.js';
import { progressContext, type ProgressPageOptions, type ProgressPictures } from './context.js';
import { progressPictures } from './pictures.js';
import { progressView } from './view/index.js';

export type { ProgressPageOptions } from './context.js';
export { PROGRESS_SCHEMA, toProgressJson } from './json.js';

/** The progress of an archive, ready to be written. */
export interface ProgressPages {
  /** One self-contained HTML file. */
  readonly page: string;
  /** The same for printing; with charts for paper if the options request them. */
  print(): string;
}

/** Renders the progress of an archive, once for screen and paper. */
export async function progressPages(
  progress: Progress,
  outlook: Outlook | null,
  options: ProgressPageOptions,
): Promise<ProgressPages> {
  const view = await progressView(progressContext(progress, outlook, options));
  const both = renderView(view, {
    template: 'progress.hbs',
    styles: ['progress.css'],
    title: view.front.title,
    place: view.front.place,
  });
  return {
    page: both.replace(DRAWN_FOR_PAPER, ''),
    print: () => both.replace(DRAWN_TWICE, '<div class="wide">$1</div>').replace(OFF_PAPER, ''),
  };
}

/** The output of `templates/partials/chart.hbs`. Texts in drawings are escaped: none of them ends a box. */
const DRAWN_FOR_PAPER = /<div class="on-paper">.*?<\/div>/gs;
const DRAWN_TWICE = /<div class="on-paper">(.*?)<\/div><div class="wide">.*?<\/div>/gs;

/**
 * Rows marked `offPaper`, as written by `templates/partials/row.hbs`. Texts are escaped: none of them ends a row. They
 * would not show on paper, but a browser would spend half of its time on those of a thousand nights.
 */
const OFF_PAPER = /<tr(?: id="[^"]*")? class="screen">.*?<\/tr>\n?/gs;

/** Begins drawing the pictures of the nights so far, while the nights ahead are computed. */
export function drawProgress(progress: Progress, options: ProgressPageOptions): Promise<ProgressPictures> {
  const pictures = progressPictures(progressContext(progress, null, options));
  // Errors are reported to whoever renders the page; there may be no page.
  pictures.catch(() => {});
  return pictures;
}
