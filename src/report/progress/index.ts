/** The progress of many nights as a page. */
import type { Outlook, Progress } from '../../model/index.js';
import { renderView } from '../html/render.js';
import { progressContext, type ProgressPageOptions, type ProgressPictures } from './context.js';
import { progressPictures } from './pictures.js';
import { progressView } from './view/index.js';

export type { ProgressPageOptions } from './context.js';
export { PROGRESS_SCHEMA, toProgressJson } from './json.js';

/** Renders the progress of an archive as one HTML file that stands alone. */
export async function renderProgress(
  progress: Progress,
  outlook: Outlook | null,
  options: ProgressPageOptions,
): Promise<string> {
  const view = await progressView(progressContext(progress, outlook, options));
  return renderView(view, {
    template: 'progress.hbs',
    styles: ['progress.css'],
    title: view.front.title,
    place: view.front.place,
  });
}

/** Rows marked `offPaper`, as `templates/partials/row.hbs` writes them. Texts are escaped: none of them ends a row. */
const OFF_PAPER = /<tr(?: id="[^"]*")? class="screen">.*?<\/tr>\n?/gs;

/**
 * The page as it is to be printed: without the rows that paper leaves out. They would not show, but a browser would
 * take half of its time for those of a thousand nights.
 */
export function progressOnPaper(html: string): string {
  return html.replace(OFF_PAPER, '');
}

/** Begins to draw what the page shows of the nights so far, while the nights ahead are looked at. */
export function drawProgress(progress: Progress, options: ProgressPageOptions): Promise<ProgressPictures> {
  const pictures = progressPictures(progressContext(progress, null, options));
  // Whoever renders the page hears of what went wrong; it may come to no page.
  pictures.catch(() => {});
  return pictures;
}
