/** The progress of many nights as a page. */
import type { Outlook, Progress } from '../../model/index.js';
import { renderView } from '../html/render.js';
import { progressContext, type ProgressPageOptions } from './context.js';
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
