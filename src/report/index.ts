/** The report stage: one night as a page, as paper, and in small formats for sharing. */
import type { Night } from '../model/index.js';
import { renderPage } from './html/render.js';
import { nightView, type ViewOptions } from './html/view/index.js';

export { writeAtomically } from '../files/write-atomically.js';
export { Edition, OutputRefused } from './edition/index.js';
export { PROGRESS_SCHEMA, renderProgress, toProgressJson, type ProgressPageOptions } from './progress/index.js';
export { FORMATS, type Format, type FormatContext } from './formats/index.js';
export type { ViewOptions as RenderOptions } from './html/view/index.js';

/**
 * Renders a night as one HTML file that stands alone: fonts, pictures, styles and script are inside it, it asks for
 * nothing, and it is whole without script.
 *
 * @param options `nowMs` (UTC ms) and `version` stand in the colophon; `share` says that the night is one to be shared: times count from its first exposure;
 *   `displayZone` is an IANA zone for the times shown, the site's own when absent
 */
export async function renderHtml(night: Night, options: ViewOptions): Promise<string> {
  return renderPage(await nightView(night, options));
}
