/** The printed shared report, read back from the PDF as anybody would who was sent it. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { nightPages, PRINT_EDITIONS, type NightPages, type PrintEdition } from '../../../src/report/index.js';
import { shareNight } from '../../../src/share.js';
import { openDesk, type Desk } from '../../support/browser.js';
import { withoutDrawing } from '../../support/drawn-once.js';
import { titlesOf } from '../../support/pdf-reader.js';
import { expectWellSet, printed, type Printed } from '../../support/printed.js';
import { ON_PAGES } from '../../support/rendered.js';
import { inFull } from '../../support/runs.js';
import { revealingNight, SECRETS } from '../../support/secrets.js';

const CONTEXT = { nowMs: Date.parse('2026-10-20T08:00:00Z'), version: '0.0.0' };

let desk: Desk;
let shared: NightPages;
let whole: NightPages;
beforeAll(async () => {
  desk = await openDesk();
  shared = await withoutDrawing(() => pagesOf(true), ON_PAGES);
  whole = await withoutDrawing(() => pagesOf(false));
});
afterAll(() => desk.close());

const NIGHT = inFull('twin-night', 'two-hours');

const pagesOf = (share: boolean): Promise<NightPages> => {
  const night = revealingNight(NIGHT);
  return nightPages(share ? shareNight(night) : night, { ...CONTEXT, share });
};

/** `npm test` prints the edition that is sent, and reads what the other is printed from. */
const PRINTED = inFull<readonly PrintEdition[]>(PRINT_EDITIONS, ['brief']);

/** Text, title and the rest of what the shared PDF says of itself, in small letters. */
function wordsOf({ about, outline, pages: read }: Printed): string {
  const said = [about, ...titlesOf(outline)].join('\n');
  return [said, ...read.map(({ text }) => text)].join('\n').toLowerCase();
}

describe.each(PRINTED)('the shared PDF, %s edition', (edition) => {
  it('is well set, and says nothing of place, people and computers, in its pages or about itself', async () => {
    const read = await printed(shared.print(edition), desk.browser, 'a4');
    expectWellSet(read, 'a4');
    const said = wordsOf(read);
    expect(said).toContain('times since the first exposure');
    expect(SECRETS.filter((secret) => said.includes(secret.toLowerCase()))).toEqual([]);
    expect(said).not.toMatch(/europe\/madrid|(sunset|moonrise)\s+\d/);
  });
});

describe.each(PRINT_EDITIONS)('what the shared PDF is printed from, %s edition', (edition) => {
  it('names nothing of them either', () => {
    const html = shared.print(edition).html({ level: 0, pageOf: null }).toLowerCase();
    expect(SECRETS.filter((secret) => html.includes(secret.toLowerCase()))).toEqual([]);
  });

  it('had something to hide: secrets stand in what the private one is printed from', () => {
    const html = whole.print(edition).html({ level: 0, pageOf: null });
    expect(html).toContain('Cierzo Hill');
    expect(html).toContain('Europe/Madrid');
  });
});
