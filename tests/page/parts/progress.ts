/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DrawPicture } from '../../../src/report/charts/thread.js';
import { progressPages } from '../../../src/report/index.js';
import { pdfOf } from '../../../src/report/pdf/index.js';
import { kindsOn, violationsOf } from '../../support/axe.js';
import { drawnOnce, withoutDrawing } from '../../support/drawn-once.js';
import { openDesk, type Desk, type OpenPage } from '../../support/browser.js';
import { drawnAt } from '../../support/rendered.js';
import { namedProgress, PROGRESS_NAMES } from '../../support/progresses.js';
import { readPdf, titlesOf } from '../../support/pdf-reader.js';
import { inFull, some } from '../../support/runs.js';

const OPTIONS = {
  nowMs: Date.parse('2026-11-25T08:00:00Z'),
  version: '0.0.0',
  share: false,
  forPaper: true,
  linkTo: (report: string | null) => report,
};

/** What is drawn of each: in `npm test` what a browser shows or prints; of others the words and elements are read. */
const DRAWN: ReadonlyMap<string, DrawPicture> = new Map(
  inFull<[string, DrawPicture][]>(
    PROGRESS_NAMES.map((name) => [name, drawnOnce]),
    [
      ['autumn-archive', drawnAt('wide', 'narrow')],
      ['many-targets', drawnOnce],
    ],
  ),
);

let desk: Desk;
const pages = new Map<string, string>();
const papers = new Map<string, string>();

beforeAll(async () => {
  desk = await openDesk();
  for (const name of PROGRESS_NAMES) {
    const { progress, outlook } = namedProgress(name);
    const made = await withoutDrawing(() => progressPages(progress, outlook, OPTIONS), DRAWN.get(name));
    pages.set(name, made.page);
    papers.set(name, made.print());
  }
});
afterAll(() => desk.close());

const open = (name: string, width: number, script = true) =>
  desk.open(`progress-${name}`, pages.get(name) ?? '', width, { script });

const tabs = new Map<string, Promise<OpenPage>>();

/** A page in a tab that several tests look at, each at the width that it sets. */
function tabOf(name: string): Promise<OpenPage> {
  const tab = tabs.get(name) ?? open(name, 1440);
  tabs.set(name, tab);
  return tab;
}

/** Texts of pictures that lie over one another or stand outside them. Runs in the page. */
function misplaced(): string[] {
  const found: string[] = [];
  for (const picture of document.querySelectorAll('svg.chart, .month svg')) {
    const frame = picture.getBoundingClientRect();
    if (frame.width === 0) continue;
    const boxes = [...picture.querySelectorAll('text')]
      .map((text) => ({
        text: (text.textContent ?? '').trim(),
        box: text.getBoundingClientRect(),
        rim: text.getAttribute('fill') === 'none',
      }))
      .filter(({ box, text, rim }) => box.width > 0 && text !== '' && !rim);
    for (const [index, a] of boxes.entries()) {
      if (a.box.left < frame.left - 3 || a.box.right > frame.right + 3) found.push(`outside: ${a.text}`);
      for (const b of boxes.slice(index + 1)) {
        const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        if (wide > 1 && high > 0.35 * Math.min(a.box.height, b.box.height)) found.push(`${a.text} | ${b.text}`);
      }
    }
  }
  return found;
}

/** Runs in the page. */
function wordsOf(): string {
  return (document.querySelector('.page') as HTMLElement).innerText.replace(/\s+/g, ' ');
}

describe.each(inFull(PROGRESS_NAMES, ['autumn-archive', 'many-targets']))(
  'the progress page of %s in a browser',
  (name) => {
    let opened: OpenPage;
    beforeAll(async () => {
      opened = await tabOf(name);
    });

    it.each([1440, 640, 360])('fits a window of %i px, and no text of a picture lies over another', async (width) => {
      const { page } = opened;
      await page.setViewport({ width, height: 900 });
      const measured = await page.evaluate(() => ({
        page: document.documentElement.scrollWidth,
        window: window.innerWidth,
      }));
      expect(measured.page).toBeLessThanOrEqual(measured.window);
      expect(await page.evaluate(misplaced)).toEqual([]);
    });

    it('opens from the disk, asks for nothing and complains of nothing', () => {
      expect(opened.page.url()).toMatch(/^file:/);
      expect(opened.requests).toEqual([]);
      expect(opened.errors).toEqual([]);
    });

    it('says nothing that is no figure, and every anchor leads somewhere', async () => {
      expect(await opened.page.evaluate(wordsOf)).not.toMatch(/\b(?:NaN|undefined|null|Infinity)\b/);
      const dead = await opened.page.evaluate(() =>
        [...document.querySelectorAll<HTMLAnchorElement>('a[href^="#"]')]
          .filter((a) => document.getElementById(a.hash.slice(1)) === null)
          .map((a) => a.hash),
      );
      expect(dead).toEqual([]);
    });

    // What needs no script is the template's affair, not the archive's.
    it.each(inFull([1440], name === 'autumn-archive' ? [1440] : []))(
      'is whole without script at %i px',
      async (width) => {
        const plain = await open(name, width, false);
        await opened.page.setViewport({ width, height: 900 });
        expect(await plain.page.evaluate(wordsOf)).toBe(
          (await opened.page.evaluate(wordsOf)).replace('light dark red ', ''),
        );
        await plain.leave();
      },
    );
  },
);

describe('the progress page on a phone', () => {
  it.each(['autumn-archive', 'many-targets'])(
    '%s, folded, is no longer than 12,000 px at 390 px and 360 px, and nothing is folded on a wide screen',
    async (name) => {
      const { page, leave } = await open(name, 390);
      for (const width of [390, 360]) {
        await page.setViewport({ width, height: 900 });
        expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThan(12_000);
      }
      await desk.drawn(page, async () => {
        await page.setViewport({ width: 1280, height: 900 });
        await page.waitForFunction(() => document.querySelectorAll('details.tuck:not([open])').length === 0);
      });
      await leave();
    },
  );
});

describe('the progress page', () => {
  let autumn: OpenPage;
  let many: OpenPage;
  beforeAll(async () => {
    autumn = await tabOf('autumn-archive');
    many = await tabOf('many-targets');
    for (const { page } of [autumn, many]) await page.setViewport({ width: 1280, height: 900 });
  });

  it('draws bars as long as their hours, within a frame as long as the goal', async () => {
    const { page } = autumn;
    const { progress } = namedProgress('autumn-archive');
    const bars = await page.$$eval('.aim', (figures) =>
      figures.map((figure) =>
        [...figure.querySelectorAll('svg')].map((svg) => ({
          full: svg.getBoundingClientRect().width,
          goal: svg.querySelector('.wanted')?.getBoundingClientRect().width ?? 0,
          kept: svg.querySelector('g rect')?.getBoundingClientRect().width ?? 0,
        })),
      ),
    );
    progress.targets.forEach((target, t) =>
      target.lines.forEach((line, l) => {
        const bar = bars[t]?.[l];
        expect((bar?.kept ?? 0) / (bar?.goal ?? 1), `${target.name} ${line.filter ?? ''}`).toBeCloseTo(
          line.ms.kept / (line.goalMs ?? 1),
          1,
        );
      }),
    );
  });

  it('places each night of the calendar on its day, with kept within used within dark', async () => {
    const { page } = autumn;
    const { progress } = namedProgress('autumn-archive');
    const nights = await page.$$eval('.month:not(.days) svg', (rows) =>
      rows.flatMap((row) =>
        [...row.querySelectorAll('g')].map((g) => {
          const height = (name: string): number => Number(g.querySelector(`.${name}`)?.getAttribute('height'));
          return {
            day: 1 + Math.round((Number.parseFloat(g.querySelector('rect')?.getAttribute('x') ?? '') / 100) * 31),
            dark: height('dark'),
            used: height('used'),
            kept: height('kept'),
          };
        }),
      ),
    );
    expect(nights.map((n) => n.day)).toEqual(progress.nights.map((n) => Number(n.date.slice(8))));
    for (const { dark, used, kept } of nights) {
      expect(kept).toBeLessThanOrEqual(used);
      expect(used).toBeLessThanOrEqual(dark);
      expect(kept).toBeGreaterThan(0);
    }
  });

  it('links a night to its report where the report is known', async () => {
    const { page } = many;
    const links = await page.$$eval('table.nights tbody a', (all) => all.map((a) => a.getAttribute('href')));
    expect(links).toHaveLength(12);
    expect(links.at(-1)).toBe('reports/0/report.html');
  });

  it('sorts its tables by what stands in them, dates by date', async () => {
    const { page } = many;
    await desk.drawn(page, () => page.click('table.nights thead th:first-child button'));
    const dates = await page.$$eval('table.nights tbody tr', (rows) =>
      rows.map((row) => Number((row as HTMLTableRowElement).cells[0]?.dataset.value)),
    );
    expect(dates).toEqual([...dates].sort((a, b) => a - b));
  });

  it('says what is lacking and when it may be there, with its spread', async () => {
    const { page } = autumn;
    const rows = await page.$$eval('table.estimates tbody tr', (all) =>
      all.map((row) => (row.textContent ?? '').replace(/\s+/g, ' ')),
    );
    expect(rows).toHaveLength(3);
    for (const row of rows) expect(row).toMatch(/until \d+ \w+ 2027.*\d+ \(\d+ to \d+\).*8 in 10 futures: /);
  });

  it('shared, names no site and links nowhere outside', async () => {
    const { progress, outlook } = namedProgress('many-targets');
    const { page: html } = await withoutDrawing(() =>
      progressPages(progress, outlook, { ...OPTIONS, share: true, linkTo: () => null }),
    );
    expect(html).not.toContain('Cierzo Hill');
    expect(html).not.toContain('report.html');
    expect(html).not.toContain('2025-01-03.json');
  });

  it('escapes what others have named', () => {
    expect(pages.get('many-targets')).toContain('&lt;second&gt; &quot;attempt&quot; &amp; more');
    expect(pages.get('many-targets')).not.toContain('<second>');
  });
});

describe('the progress page on paper', () => {
  // First the archive with a name longer than a column: a table wider than the paper has all letters printed smaller.
  it.each(some(['many-targets', 'autumn-archive', 'no-site'], 1))(
    '%s is tagged, outlined, whole, each target has its goals, no page is all but empty and no letter small',
    async (name) => {
      const { isTagged, outline, pages: read } = await readPdf(await pdfOf(papers.get(name) ?? '', desk.browser, 'a4'));
      expect(isTagged).toBe(true);
      expect(titlesOf(outline).join(' | ')).toMatch(/Progress to .*Goals.*Outlook.*Calendar of nights.*Every night/);
      const texts = read.map(({ lines }) =>
        lines
          .map(({ text }) => text)
          .join(' ')
          .replaceAll(/[\s\u00a0]+/g, ' '),
      );
      // Nine points, less the rounding of what is scaled.
      const small = read.flatMap(({ lines }) => lines.filter(({ height }) => height < 8.95).map(({ text }) => text));
      expect(small).toEqual([]);
      expect(texts.join(' ')).not.toMatch(/\b(?:NaN|undefined|null|Infinity)\b/);
      texts.forEach((text, index) => expect(text).toContain(`${index + 1} of ${texts.length}`));
      const { progress } = namedProgress(name);
      for (const target of progress.targets) {
        const title = target.name === '' ? 'no target named' : target.name;
        expect(
          texts.filter(
            (text) =>
              text.includes(`${title.slice(0, 60)}`) && text.includes(': goals, and what was kept towards them'),
          ).length,
          title,
        ).toBeGreaterThan(0);
      }
    },
  );
});

// The tabs are of no use afterwards.
describe('accessibility of the progress page', () => {
  it('is asked of every kind of element that any page has', () => {
    const asked = kindsOn(pages.get('autumn-archive') ?? '');
    const others = [...pages].flatMap(([name, html]) =>
      [...kindsOn(html)].filter((kind) => !asked.has(kind)).map((kind) => `${kind} of ${name}`),
    );
    expect(others).toEqual([]);
  });

  it.each(
    some<readonly [string, readonly ('light' | 'dark' | 'red')[]]>(
      [
        ['autumn-archive', ['light', 'dark', 'red']],
        ['many-targets', ['light']],
        ['no-site', ['dark']],
        ['all-finished', ['red']],
      ],
      1,
    ),
  )('axe finds nothing on %s, %j', async (name, themes) => {
    const { page } = await tabOf(name);
    await page.setViewport({ width: 1280, height: 900 });
    expect(await violationsOf(page, ...themes)).toEqual([]);
  });
});
