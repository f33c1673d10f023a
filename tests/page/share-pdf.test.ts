/** The printed shared report, read back from the PDF as anybody would who was sent it. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { nightPages, PRINT_EDITIONS, type PrintEdition } from '../../src/report/index.js';
import { shareNight } from '../../src/share.js';
import { openDesk, type Desk } from '../support/browser.js';
import { titlesOf } from '../support/pdf-reader.js';
import { printed } from '../support/printed.js';
import { revealingNight, SECRETS } from '../support/secrets.js';

const CONTEXT = { nowMs: Date.parse('2026-10-20T08:00:00Z'), version: '0.0.0' };

let desk: Desk;
beforeAll(async () => {
  desk = await openDesk();
});
afterAll(() => desk.close());

/** Text, title and the rest of what a PDF says of itself, in small letters. */
async function readPdf(edition: PrintEdition, share: boolean): Promise<string> {
  const night = share ? shareNight(revealingNight()) : revealingNight();
  const pages = await nightPages(night, { ...CONTEXT, share });
  const { about, outline, pages: read } = await printed(pages.print(edition), desk.browser, 'a4');
  const said = [about, ...titlesOf(outline)].join('\n');
  return [said, ...read.map(({ text }) => text)].join('\n').toLowerCase();
}

describe.each(PRINT_EDITIONS)('the shared PDF, %s edition', (edition) => {
  it('says nothing of place, people and computers, in its pages or about itself', async () => {
    const shared = await readPdf(edition, true);
    expect(shared).toContain('times since the first exposure');
    expect(SECRETS.filter((secret) => shared.includes(secret.toLowerCase()))).toEqual([]);
    expect(shared).not.toMatch(/europe\/madrid|(sunset|moonrise)\s+\d/);
  });

  it('had something to hide: secrets stand in the private one', async () => {
    const whole = await readPdf(edition, false);
    expect(whole).toContain('cierzo hill');
    expect(whole).toContain('europe/madrid');
  });
});
