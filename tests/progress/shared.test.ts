import { describe, expect, it } from 'vitest';
import { shareOutlook, shareProgress } from '../../src/progress/index.js';
import { namedProgress, PROGRESS_NAMES } from '../support/progresses.js';

const HOUR_MS = 3_600_000;

describe.each(PROGRESS_NAMES)('the shared progress of %s', (name) => {
  const { progress, outlook } = namedProgress(name);

  it('names no site and no file, and tells darkness in whole hours', () => {
    const shared = shareProgress(progress);
    for (const night of shared.nights) {
      expect(night).toMatchObject({ file: '', site: null, report: null });
      expect((night.window.endMs - night.window.startMs) % HOUR_MS).toBe(0);
    }
    expect(shared.targets).toEqual(progress.targets);
    expect(shared.notices.every((n) => n.source === undefined)).toBe(true);
  });

  it('tells the hours ahead in whole hours', () => {
    if (outlook === null) return;
    const { next, targets, site } = shareOutlook(outlook);
    expect(site).toBeNull();
    const hours = [
      ...next.flatMap((n) => [n.darkHours, n.moonlessHours]),
      ...targets.flatMap((t) => t.nights.flatMap((n) => [n.dark, n.up, n.moonless, n.farMoon])),
      ...targets.flatMap((t) => t.months.flatMap((m) => [m.up, m.moonless, m.farMoon])),
    ];
    expect(hours.filter((h) => !Number.isInteger(h))).toEqual([]);
  });
});
