/** What is printed of nights that nobody chose. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BRIEF_PAGES, nightPages, PRINT_EDITIONS, type NightPages, type PrintEdition } from '../../src/report/index.js';
import type { Paper } from '../../src/report/pdf/index.js';
import { anyNight } from '../support/any-night.js';
import { openDesk, type Desk } from '../support/browser.js';
import { expectWellSet, printed } from '../support/printed.js';
import { inFull, some } from '../support/runs.js';
import { TEST_NOW_MS } from '../support/sample-night.js';

/** One to three trains and targets, 60 to 1200 frames; each was badly set once, or is the fullest. */
const SEEDS = [...some([1, 6, 2, 9], 1)];
/** `PRINTED_NIGHTS` asks for so many more. */
for (let more = 0; more < Number(process.env.PRINTED_NIGHTS ?? '0'); more++) SEEDS.push(100 + more);

let desk: Desk;
const pages = new Map<number, NightPages>();
beforeAll(async () => {
  desk = await openDesk();
  for (const seed of SEEDS)
    pages.set(seed, await nightPages(await anyNight(seed), { nowMs: TEST_NOW_MS, version: '0.0.0', share: false }));
});
afterAll(() => desk.close());

/** `npm test` prints the long edition of this night, and the brief ones of its neighbours here. */
const EDITIONS = inFull<readonly PrintEdition[]>(PRINT_EDITIONS, ['full']);

describe.each(EDITIONS)('the %s edition of a random night', (edition) => {
  it.each(SEEDS)('has full pages, headings with what they head, no word over another: seed %i', async (seed) => {
    const paper: Paper = seed % 2 === 0 ? 'a4' : 'letter';
    const night = pages.get(seed);
    if (night === undefined) throw new RangeError(`seed ${seed} was not rendered`);
    const result = await printed(night.print(edition), desk.browser, paper);
    if (edition === 'brief') expect(result.pages.length).toBeLessThanOrEqual(BRIEF_PAGES);
    expectWellSet(result, paper);
  });
});
