/** What is printed of 20, 300 and 900 frames of one, two and three trains. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BRIEF_PAGES, nightPages, PRINT_EDITIONS, type NightPages } from '../../../src/report/index.js';
import type { Paper } from '../../../src/report/pdf/index.js';
import { openDesk, type Desk } from '../../support/browser.js';
import { namedNight } from '../../support/nights.js';
import { FRAME_COUNT_NAMES } from '../../support/nights/scenarios.js';
import { expectWellSet, printed } from '../../support/printed.js';
import { TEST_NOW_MS } from '../../support/sample-night.js';

/** Printed where `PRINTED_NIGHTS` asks for many; tests/page/pdf.test.ts and its neighbours have the corners. */
const isThorough = process.env.PRINTED_NIGHTS !== undefined;
const NAMES = isThorough ? FRAME_COUNT_NAMES : ['20-frames-3-trains'];
const PAPERS: readonly Paper[] = ['a4', 'letter'];

describe.each(NAMES)('a night of %s', (name) => {
  it('has about as many frames as its name says', () => {
    const [frames = 0, trains = 0] = name.split('-').flatMap((part) => (/^\d+$/.test(part) ? [Number(part)] : []));
    const { accounts, gathered } = namedNight(name);
    expect(gathered.trains).toHaveLength(trains);
    expect(accounts.lights.length / frames).toBeGreaterThan(0.7);
    expect(accounts.lights.length / frames).toBeLessThan(1.3);
  });
});

describe.each(isThorough ? NAMES : [])('the print of a night of %s', (name) => {
  let desk: Desk;
  let own: NightPages;
  beforeAll(async () => {
    desk = await openDesk();
    own = await nightPages(namedNight(name), { nowMs: TEST_NOW_MS, version: '0.0.0', share: false });
  });
  afterAll(() => desk.close());

  it.each(PRINT_EDITIONS.flatMap((edition) => PAPERS.map((paper) => [edition, paper] as const)))(
    'has full pages, headings with what they head, no word over another: %s, %s',
    async (edition, paper) => {
      const result = await printed(own.print(edition), desk.browser, paper);
      if (edition === 'brief') expect(result.pages.length).toBeLessThanOrEqual(BRIEF_PAGES);
      expectWellSet(result, paper);
    },
  );
});
