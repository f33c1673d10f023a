/**
 * Progress and outlook for sharing, made from nights already stripped of anything that reveals the site: the remaining
 * steps remove sentences that may quote anything, and the site itself.
 */
import type { Outlook, Progress } from '../model/index.js';

/** Progress without places and sentences. */
export function shareProgress(progress: Progress): Progress {
  return {
    ...progress,
    nights: progress.nights.map((night) => ({ ...night, site: null })),
    notices: progress.notices.map(({ code, count }) => ({
      code,
      message: 'the details are left out of the shared edition',
      count,
    })),
  };
}

/** An outlook without its site. */
export function shareOutlook(outlook: Outlook): Outlook {
  return { ...outlook, site: null };
}
