import { describe, expect, it } from 'vitest';
import { NO_BOOK } from '../../src/config/index.js';
import { lookAhead } from '../../src/look-ahead.js';
import { progressOf, shareOutlook, shareProgress } from '../../src/progress/index.js';
import { shareNights } from '../../src/share-nights.js';
import { some } from '../support/runs.js';
import { namedProgress, PROGRESS_NAMES } from '../support/progresses.js';

describe.each(some(PROGRESS_NAMES, 4))('the shared progress of %s', (name) => {
  const { progress, outlook } = namedProgress(name);
  const { nights, siteKey } = shareNights(progress.nights);

  it('names no site and no file, and tells what was done in steps of ten minutes', () => {
    const shared = shareProgress(progressOf(nights, NO_BOOK, siteKey));
    for (const night of shared.nights) {
      expect(night).toMatchObject({ file: '', site: null, report: null });
      expect(night.used === null || (night.used.endMs - night.used.startMs) % 600_000 === 0).toBe(true);
    }
    expect(shared.trends.map((t) => t.keptMs)).toEqual(progress.trends.map((t) => t.keptMs));
    expect(shared.notices.every((n) => n.source === undefined)).toBe(true);
  });

  it('computes darkness for the middle of the square, of past nights and of those to come', () => {
    const known = nights.flatMap(({ site }) => (site === null ? [] : [site]));
    for (const { latitudeDeg, longitudeDeg, horizon, name: siteName } of known) {
      expect([Math.abs(latitudeDeg) % 10, Math.abs(longitudeDeg) % 10, horizon, siteName]).toEqual([5, 5, [], null]);
    }
    const ahead = lookAhead(progressOf(nights, NO_BOOK, siteKey), NO_BOOK, siteKey, { nowMs: Date.UTC(2026, 10, 25) });
    expect(ahead === null).toBe(outlook === null);
    if (ahead) expect(shareOutlook(ahead).site).toBeNull();
  });
});
