/**
 * Progress and outlook to be shared, once the nights they are made of have been stripped of what tells the site: what
 * is left to take away are sentences that may quote anything, and the site itself.
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
