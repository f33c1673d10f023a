/**
 * Pages of nights that nobody chose, as text: a quantity that stands in several places reads the same in each, on the
 * page, in both printed editions and in the short text.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { duration, isReplayed, sum, type Night } from '../../../src/model/index.js';
import { FORMATS, nightPages } from '../../../src/report/index.js';
import { anyNight } from '../../support/any-night.js';
import { withoutDrawing } from '../../support/drawn-once.js';
import { some } from '../../support/runs.js';
import { TEST_NOW_MS } from '../../support/sample-night.js';

/** One to three trains; narrow and broad bands; with a Moon and without. */
const SEEDS = some([26, 22, 3, 20, 21, 23, 24, 27, 28, 29, 30, 33, 34, 35, 39, 42, 43, 44, 47, 50, 52, 1, 4, 9], 1);

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#x27': "'", '#x3D': '=' };

/** What a reader sees of a piece of markup. */
function textOf(html: string): string {
  return html
    .replace(/<(style|script)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/&(#?\w+);/g, (whole, name: string) => ENTITIES[name] ?? whole)
    .replace(/\s+/g, ' ')
    .trim();
}

/** Pieces of markup between two marks. */
function pieces(html: string, pattern: RegExp): string[] {
  return [...html.matchAll(pattern)].map(([, piece = '']) => textOf(piece));
}

/** `12 h 04 min 10 s` in seconds. */
function exactSeconds(text: string): number {
  const of = (unit: string): number => Number(new RegExp(`(\\d+) ${unit}`).exec(text)?.[1] ?? 0);
  return 3600 * of('h') + 60 * of('min') + of('s');
}

/** A row of a table by the cell that heads it. */
function rowOf(table: string, head: string): string[] {
  const row = [...table.matchAll(/<tr[^>]*>([\s\S]*?)<\/tr>/g)].find(([, r = '']) =>
    textOf(/<th[^>]*>([\s\S]*?)<\/th>/.exec(r)?.[1] ?? '').startsWith(head),
  );
  return [...(row?.[1] ?? '').matchAll(/<t[hd][^>]*>([\s\S]*?)<\/t[hd]>/g)].map(([, cell = '']) => textOf(cell));
}

describe.each(SEEDS)('the page of random night %i', (seed) => {
  let night: Night;
  let page: string;
  let prints: string[];
  let summary: string;
  beforeAll(async () => {
    night = await anyNight(seed);
    const options = { nowMs: TEST_NOW_MS, version: '0.0.0', share: false };
    const pages = await withoutDrawing(() => nightPages(night, options));
    const loose = (html: string): string => html.replaceAll('\u00a0', ' ');
    page = loose(pages.page);
    prints = (['brief', 'full'] as const).map((edition) =>
      loose(pages.print(edition).html({ level: 0, pageOf: null })),
    );
    const format = FORMATS.find(({ id }) => id === 'summary');
    summary = String(await format?.render(night, options));
  });
  const headlineOf = (html: string): string => pieces(html, /<p class="headline">([\s\S]*?)<\/p>/g)[0] ?? '';
  const tableOf = (name: string): string =>
    new RegExp(`<table class="[^"]*\\b${name}\\b[^"]*"[\\s\\S]*?</table>`).exec(page)?.[0] ?? '';

  it('says nothing that is no figure', () => {
    for (const html of [page, ...prints]) expect(textOf(html)).not.toMatch(/NaN|undefined|Infinity|\[object/);
  });

  it('has one headline on page, in print and in the short text', () => {
    const headline = headlineOf(page);
    expect(headline).not.toBe('');
    for (const html of prints) expect(headlineOf(html)).toBe(headline);
    const plain = (text: string): string => text.replace(/[\s*_\\]+/g, ' ');
    expect(plain(summary)).toContain(plain(headline));
  });

  it('has one figure for what was kept: headline, front, table, goals, replay', () => {
    const keptMs = sum(night.accounts.totals.map(({ ms }) => ms.kept));
    const kept = duration(keptMs);
    const figures = pieces(page, /<dl class="figures">([\s\S]*?)<\/dl>/g)[0] ?? '';
    const frames = sum(night.accounts.totals.map((t) => t.frames.kept));
    const taken = sum(night.accounts.totals.map((t) => t.frames.taken));
    expect(headlineOf(page).startsWith(kept)).toBe(true);
    expect(figures).toContain(`Kept ${kept} ${frames} frames of ${taken}`);
    const total = rowOf(tableOf('totals'), 'the night');
    if (total.length > 0) expect(total).toEqual(expect.arrayContaining([kept, String(frames), String(taken)]));
    const toStack = /([\d ]+) frames? to stack/.exec(textOf(page))?.[1]?.replaceAll(/\D/g, '');
    if (toStack !== undefined) expect(Number(toStack)).toBe(frames);
    if (isReplayed(night.replay)) expect(textOf(page)).toContain(`the night kept ${kept}`);
  });

  it('has in the ledger’s table what its pictures and the front have', () => {
    const open = rowOf(tableOf('ledger'), 'shutter open');
    const kept = rowOf(tableOf('ledger'), 'kept');
    const pictures = pieces(page, /<figure class="cascade">([\s\S]*?)<\/figure>/g);
    night.accounts.ledgers.forEach(({ train }, i) => {
      const picture = pictures.find((text) => text.startsWith(`${train},`)) ?? '';
      for (const [row, label] of [
        [open, 'Shutter open'],
        [kept, 'Kept'],
      ] as const) {
        const [time = '', share = ''] = row.slice(1 + 2 * i, 3 + 2 * i);
        expect(picture, `${train} ${label}`).toContain(`${label} ${duration(1000 * exactSeconds(time))} ${share}`);
      }
    });
    const shares = open.filter((_, i) => i > 0 && i % 2 === 0).map((text) => Number.parseFloat(text));
    const front = Number(/Shutter open ([\d.]+) %/.exec(textOf(page.split('class="figures"')[1] ?? ''))?.[1]);
    expect(Math.abs(front - sum(shares) / shares.length)).toBeLessThanOrEqual(1);
  });

  it('has each finding’s cost and win in the same words wherever it stands', () => {
    const articles = [...page.matchAll(/<article class="finding" id="([^"]+)">([\s\S]*?)<\/article>/g)].map(
      ([, id = '', html = '']) => ({
        id,
        text: textOf(html),
        price: /<dl class="price">([\s\S]*?)<\/dl>/.exec(html)?.[1] ?? '',
        title: textOf(/<h3>([\s\S]*?)<\/h3>/.exec(html)?.[1] ?? ''),
      }),
    );
    expect(articles).toHaveLength(night.findings.ranked.length);
    const [brief = '', full = ''] = prints.map(textOf);
    for (const { title, price } of articles) {
      const of = (label: string): string | undefined =>
        new RegExp(`<dt>${label}</dt><dd[^>]*>([^<]*)</dd>`).exec(price)?.[1];
      const win = of('recoverable');
      const said = `${title}. Cost ${textOf(of('cost') ?? '')}${win === undefined ? '' : `, recoverable ${win}`}; confidence`;
      // A long test's text in a failure helps nobody.
      // What is no time stands behind a colon.
      const saidBehind = said.replace(`${title}. Cost `, `${title}. Cost: `);
      if (brief.includes(`${title}. Cost`)) expect(brief.includes(said) || brief.includes(saidBehind), said).toBe(true);
      expect(full.includes(title), title).toBe(true);
    }
    // Tonight says of a finding what the finding says of itself, where it alone advises so.
    for (const [, what = '', win = '', anchor = ''] of page.matchAll(
      /<li><p>([^<]*)<\/p><p class="win">Recoverable: <b>([^<]*)<\/b>[^<]*<a href="#([^"]+)"/g,
    )) {
      const alike = articles.filter(({ text }) => text.includes(textOf(what)));
      const [own] = alike;
      if (alike.length === 1 && own?.id === anchor) expect(own.text, what).toContain(` recoverable ${win} `);
    }
  });

  it('names one number of dithers, and one gain of the best rules', () => {
    const text = textOf(page);
    const dithers = night.accounts.dithers.length;
    for (const [, count] of text.matchAll(/\b(\d+) dithers, where|\b(\d+) dithers: \w+ waited/g))
      if (count !== undefined) expect(Number(count)).toBe(dithers);
    if (!isReplayed(night.replay) || night.replay.best === null) return;
    const gain = /Best together, ([^( :]+ \w+)/.exec(text)?.[1] ?? '';
    expect(prints.every((html) => !textOf(html).includes('Best together') || textOf(html).includes(gain))).toBe(true);
    expect(gain).not.toBe('');
  });
});
