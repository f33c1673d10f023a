/** What is printed of nights that nobody chose. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BRIEF_PAGES, nightPages, PRINT_EDITIONS, type NightPages } from '../../../src/report/index.js';
import type { Paper } from '../../../src/report/pdf/index.js';
import { anyNight } from '../../support/any-night.js';
import { openDesk, type Desk } from '../../support/browser.js';
import { expectWellSet, printed } from '../../support/printed.js';
import { inFull } from '../../support/runs.js';
import { TEST_NOW_MS } from '../../support/sample-night.js';

/**
 * One to three trains and targets, 60 to 1200 frames; each was badly set once, or is the fullest. `npm test` prints
 * nights that have a name (print.ts).
 */
const SEEDS = inFull([1, 6, 2, 9], []);
/** `PRINTED_NIGHTS` asks for so many more. */
for (let more = 0; more < Number(process.env.PRINTED_NIGHTS ?? '0'); more++) SEEDS.push(100 + more);

describe.each(SEEDS)('a random night, seed %i', (seed) => {
  let desk: Desk;
  let pages: NightPages;
  beforeAll(async () => {
    desk = await openDesk();
    pages = await nightPages(await anyNight(seed), { nowMs: TEST_NOW_MS, version: '0.0.0', share: false });
  });
  afterAll(() => desk.close());

  it.each(PRINT_EDITIONS)('has full pages, headings with what they head, no word over another: %s', async (edition) => {
    const paper: Paper = seed % 2 === 0 ? 'a4' : 'letter';
    const result = await printed(pages.print(edition), desk.browser, paper);
    if (edition === 'brief') expect(result.pages.length).toBeLessThanOrEqual(BRIEF_PAGES);
    expectWellSet(result, paper);
  });
});
