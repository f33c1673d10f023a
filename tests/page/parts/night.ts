/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
import type { ElementHandle, Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { kindsOn, violationsOf, violationsOfNew } from '../../support/axe.js';
import { openDesk, type Desk, type OpenPage } from '../../support/browser.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';
import { renderedNight } from '../../support/rendered.js';
import { inFull, some } from '../../support/runs.js';

/** A whole session of the folder of samples, through the whole pipeline: it has every section there is. */
const SAMPLE = 'sample-twin-night';
/** A session with pixels: pictures of stars, and how the trains pointed. */
const STARS = 'sample-star-night';

const THEMES = ['light', 'dark', 'red'] as const;
/** Pages that hold every kind of element between them. */
const SPECIMENS: readonly string[] = [SAMPLE, STARS, 'longest', 'no-frames'];
/** Of the invented nights: a short one without darkness; all of them in `npm run thorough`. */
const INVENTED = inFull(NIGHT_NAMES, ['polar-summer']);

/** The pages that are opened, and others whose kinds of element the specimens must have. */
const SHOWN = new Set([...INVENTED, ...SPECIMENS]);

let desk: Desk;
const pages = new Map<string, string>();

beforeAll(async () => {
  desk = await openDesk();
  for (const name of SHOWN) pages.set(name, await renderedNight(name));
});
afterAll(() => desk.close());

const open = (name: string, width: number, script = true) => desk.open(name, pages.get(name) ?? '', width, { script });

/** Opens what is folded. Runs in the page. */
function unfold(): void {
  for (const one of document.querySelectorAll('details')) one.open = true;
}

/** Runs in the page. */
function background(): string {
  return getComputedStyle(document.documentElement).backgroundColor;
}

/** What the page says, but for the controls that do nothing without its script. Runs in the page. */
function wordsOfPage(): string {
  const controls = [...document.querySelectorAll<HTMLElement>('.themes, .filter')];
  const shown = controls.map(({ style }) => style.display);
  for (const control of controls) control.style.display = 'none';
  const words = (document.querySelector('.page') as HTMLElement).innerText.replace(/\s+/g, ' ');
  for (const [index, control] of controls.entries()) control.style.display = shown[index] ?? '';
  return words;
}

/** Texts of pictures that lie over one another, by the boxes they take in the window. Runs in the page. */
function overlaps(selector: string): string[] {
  const found: string[] = [];
  for (const picture of document.querySelectorAll(selector)) {
    const boxes = [...picture.querySelectorAll('text')]
      .map((text) => ({
        text: text.textContent ?? '',
        box: text.getBoundingClientRect(),
        hollow: text.getAttribute('fill') === 'none',
      }))
      .filter(({ box, hollow, text }) => box.width > 0 && !hollow && text.trim() !== '');
    for (const [index, a] of boxes.entries()) {
      for (const b of boxes.slice(index + 1)) {
        const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        // A text's box has room above and below its letters; those may touch.
        if (wide > 1 && high > 0.35 * Math.min(a.box.height, b.box.height))
          found.push(`${a.text.trim()} | ${b.text.trim()}`);
      }
    }
  }
  return found;
}

/** Pictures in view: how much ink they hold, and which of their texts stand outside. Runs in the page. */
function inspect(): { label: string; marks: number; texts: number; outside: string[] }[] {
  return [...document.querySelectorAll('svg.chart, svg.timeline')]
    .filter((svg) => svg.getBoundingClientRect().width > 0)
    .map((svg) => {
      const frame = svg.getBoundingClientRect();
      const texts = [...svg.querySelectorAll('text')]
        .map((text) => ({ text: text.textContent ?? '', box: text.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 0);
      return {
        label: svg.getAttribute('aria-label') ?? '',
        marks: [...svg.querySelectorAll('path, rect, line')].filter((mark) => {
          const box = mark.getBoundingClientRect();
          return box.width + box.height > 0;
        }).length,
        texts: texts.length,
        outside: texts
          .filter(
            ({ box }) =>
              box.left < frame.left - 2 ||
              box.right > frame.right + 2 ||
              box.top < frame.top - 4 ||
              box.bottom > frame.bottom + 4,
          )
          .map(({ text }) => text),
      };
    });
}

/** Adds a line to the page with every character that it shows, one span each. Runs in the page. */
function spell(): string[] {
  const letters = [
    ...new Set([
      ...(document.querySelector('.page') as HTMLElement).innerText,
      ...[...document.querySelectorAll('svg text')].map((text) => text.textContent ?? '').join(''),
    ]),
  ].filter((letter) => letter.trim() !== '');
  const line = document.createElement('p');
  line.id = 'letters';
  for (const letter of letters) {
    const span = document.createElement('span');
    span.textContent = letter;
    line.append(span);
  }
  document.body.append(line);
  return letters;
}

const tabs = new Map<string, Promise<OpenPage>>();

/** A night's page in a tab that several tests look at, each at the width that it sets. */
function tabOf(name: string): Promise<OpenPage> {
  const tab = tabs.get(name) ?? open(name, 1440);
  tabs.set(name, tab);
  return tab;
}

describe.each([...INVENTED, SAMPLE])('the page of %s in a browser', (name) => {
  let opened: OpenPage;
  beforeAll(async () => {
    opened = await tabOf(name);
  });

  it('has tables that fit a tablet of 820 px; where every frame is measured they scroll in themselves', async () => {
    const { page } = opened;
    await page.setViewport({ width: 820, height: 1180 });
    await page.evaluate(unfold);
    const scrolling = await page.$$eval('.table-box:not(.frames-box, .subs-box)', (boxes) =>
      boxes.filter((box) => box.scrollWidth > box.clientWidth + 1).map((box) => `${box.className} ${box.scrollWidth}`),
    );
    expect(scrolling).toEqual([]);
  });

  // 640 px is what a window of 1280 px has at a zoom of 200 %.
  it.each([1440, 640, 360])(
    'fits a window of %i px, with ink in every picture and no text over another',
    async (width) => {
      const { page } = opened;
      await page.setViewport({ width, height: 900 });
      await page.evaluate(unfold);
      const measured = await page.evaluate(() => ({
        page: document.documentElement.scrollWidth,
        window: window.innerWidth,
      }));
      expect(measured.page).toBeLessThanOrEqual(measured.window);
      expect(await page.evaluate(overlaps, 'svg.timeline, svg.chart, .rest')).toEqual([]);
      expect(await page.evaluate(crowdedRows)).toEqual([]);
      const pictures = await page.evaluate(inspect);
      // A night without an exposure has its timeline alone.
      expect(pictures.length).toBeGreaterThan(name === 'no-frames' ? 0 : 1);
      for (const picture of pictures) {
        expect(picture.marks, picture.label).toBeGreaterThan(3);
        expect(picture.texts, picture.label).toBeGreaterThan(3);
        expect(picture.outside, picture.label).toEqual([]);
      }
    },
  );

  it('asks for nothing and complains of nothing', () => {
    expect(opened.requests).toEqual([]);
    expect(opened.errors).toEqual([]);
  });

  // What needs no script is the templates' affair, not the night's.
  it.each(inFull([360], name === SAMPLE ? [] : [360]))(
    'is whole without script at %i px, and then dark where the system wishes it',
    async (width) => {
      const { page, leave } = await open(name, width, false);
      await page.evaluate(unfold);
      await opened.page.evaluate(unfold);
      expect(await page.evaluate(wordsOfPage)).toBe(await opened.page.evaluate(wordsOfPage));
      expect(await page.$$eval('.filter', (filters) => filters.length)).toBe(0);
      const light = await page.evaluate(background);
      await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: 'dark' }]);
      expect(await page.evaluate(background)).not.toBe(light);
      await leave();
    },
  );

  it('sets every letter in a font that it brings along', async () => {
    const { page } = opened;
    await page.evaluate(unfold);
    const letters = await page.evaluate(spell);
    const session = await page.createCDPSession();
    await session.send('DOM.enable');
    await session.send('CSS.enable');
    const { root } = await session.send('DOM.getDocument');
    const { nodeIds } = await session.send('DOM.querySelectorAll', { nodeId: root.nodeId, selector: '#letters span' });
    expect(nodeIds).toHaveLength(letters.length);
    const foreign: string[] = [];
    for (const [index, nodeId] of nodeIds.entries()) {
      const { fonts } = await session.send('CSS.getPlatformFontsForNode', { nodeId });
      if (fonts.some((font) => !font.isCustomFont))
        foreign.push(
          `${letters[index] ?? ''} (U+${letters[index]?.codePointAt(0)?.toString(16) ?? ''}) in ${fonts[0]?.familyName ?? ''}`,
        );
    }
    expect(foreign).toEqual([]);
    await page.$eval('#letters', (line) => line.remove());
  });
});

/** Rows of the ledger whose name comes nearer to its first figure than a letter's width. Runs in the page. */
function crowdedRows(): string[] {
  const spanOf = (cell: Element): DOMRect => {
    const range = document.createRange();
    range.selectNodeContents(cell);
    return range.getBoundingClientRect();
  };
  return [...document.querySelectorAll('table.ledger tbody th')].flatMap((name) => {
    const figure = name.nextElementSibling;
    return figure && spanOf(figure).left - spanOf(name).right < 6 ? [name.textContent ?? ''] : [];
  });
}

describe('a page that stays small', () => {
  it.each(some(['longest', 'twin-night', 'sample-star-night', 'three-trains', SAMPLE], 1))(
    '%s, folded, is no longer than 12,000 px on a phone of 390 px and of 360 px, and unfolds when the window grows',
    async (name) => {
      const { page, leave } = await desk.open(name, await renderedNight(name), 390);
      const folded = (): Promise<number> => page.$$eval('details.tuck:not([open])', (all) => all.length);
      for (const width of [390, 360]) {
        await page.setViewport({ width, height: 900 });
        expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThan(12_000);
        expect(await folded()).toBeGreaterThan(3);
      }
      await desk.drawn(page, async () => {
        await page.setViewport({ width: 1280, height: 900 });
        await page.waitForFunction(() => document.querySelectorAll('details.tuck:not([open])').length === 0);
      });
      await leave();
    },
  );

  it('weighs less than 3 MB with thousands of short subs, lists what is not kept, and sends the reader to frames.csv', async () => {
    const [name, least] = inFull(['twenty-thousand-frames', 20_000], ['two-thousand-frames', 1900]);
    expect(namedNight(name).accounts.lights.length).toBeGreaterThan(least);
    const html = await renderedNight(name);
    expect(Buffer.byteLength(html)).toBeLessThan(3_000_000);
    const { page, leave } = await desk.open(name, html, 360);
    const shown = await page.evaluate(() => ({
      wide: document.documentElement.scrollWidth - window.innerWidth,
      rows: document.querySelectorAll('table.frames tbody tr').length,
      said: [...document.querySelectorAll('table.frames caption')].map((caption) => caption.textContent),
    }));
    expect(shown.wide).toBeLessThanOrEqual(0);
    expect(shown.rows).toBeGreaterThan(20);
    expect(shown.rows).toBeLessThan(4_000);
    for (const caption of shown.said) expect(caption).toContain('frames.csv');
    await leave();
  });
});

describe('what the page’s script does', () => {
  let opened: OpenPage;
  beforeAll(async () => {
    opened = await tabOf(SAMPLE);
    await opened.page.setViewport({ width: 1280, height: 900 });
  });
  const drawn = (use: (page: Page) => Promise<void>) => () => desk.drawn(opened.page, () => use(opened.page));

  it('lets the keyboard reach themes, contents, and every table that can scroll', async () => {
    const reached = await opened.page.evaluate(() => {
      const focusable = [...document.querySelectorAll<HTMLElement>('a[href], button, [tabindex="0"]')];
      return {
        themes: focusable.filter((one) => one.closest('.themes')).length,
        contents: focusable.filter((one) => one.closest('.contents')).length,
        boxes: [...document.querySelectorAll('.table-box')].every((box) => focusable.includes(box as HTMLElement)),
      };
    });
    expect(reached.themes).toBe(3);
    expect(reached.contents).toBeGreaterThanOrEqual(13);
    expect(reached.boxes).toBe(true);
  });

  it(
    'reads out what is pointed at on the timeline',
    drawn(async (page) => {
      expect(await page.$eval('.readout', (line) => (line as HTMLElement).hidden)).toBe(true);
      const harmed = await page.evaluateHandle(() =>
        [...document.querySelectorAll('.twin .frame.lost')]
          .find((frame) => frame.textContent?.includes('guiding off'))
          ?.querySelector('rect'),
      );
      await (harmed.asElement() as ElementHandle<Element> | null)?.hover();
      expect(await page.$eval('.readout', (line) => line.textContent)).toMatch(/lost · .* · guiding off/);
    }),
  );

  it(
    'switches themes and says which one is on',
    drawn(async (page) => {
      const light = await page.evaluate(background);
      await page.click('.themes [data-theme=red]');
      expect(await page.evaluate(background)).not.toBe(light);
      expect(await page.$eval('.themes [data-theme=red]', (button) => button.getAttribute('aria-pressed'))).toBe(
        'true',
      );
      await page.click('.themes [data-theme=light]');
      expect(await page.evaluate(background)).toBe(light);
    }),
  );

  it(
    'sorts a table by a column, both ways, and keeps each target’s frames together',
    drawn(async (page) => {
      await page.evaluate(unfold);
      const head = 'table.frames thead th:nth-child(3) button';
      const times = (): Promise<number[]> =>
        page.$$eval('table.frames:first-of-type tbody:first-of-type tr:not(.group)', (rows) =>
          rows.slice(0, 40).map((row) => Number((row as HTMLTableRowElement).cells[2]?.dataset.value)),
        );
      await page.click(head);
      const up = await times();
      expect(up).toEqual([...up].sort((a, b) => a - b));
      await page.click(head);
      const down = await times();
      expect(down).toEqual([...down].sort((a, b) => b - a));
      expect(await page.$eval('table.frames thead th:nth-child(3)', (cell) => cell.getAttribute('aria-sort'))).toBe(
        'descending',
      );
      expect(
        await page.$eval('table.frames tbody', (body) => (body as HTMLTableSectionElement).rows[0]?.className),
      ).toBe('group');
    }),
  );
});

describe('accessibility', () => {
  const kinds = new Map<string, ReadonlySet<string>>();
  const kindsOf = (name: string): ReadonlySet<string> => {
    const own = kinds.get(name) ?? kindsOn(pages.get(name) ?? '');
    kinds.set(name, own);
    return own;
  };

  // The first page whole; of each other what those before it have not. The tab is of no use afterwards.
  it('axe finds nothing on any kind of element, in any theme', async () => {
    const { page } = await tabOf(SAMPLE);
    await page.setViewport({ width: 1280, height: 900 });
    const known = new Set(kindsOf(SAMPLE));
    expect(await violationsOf(page, ...THEMES)).toEqual([]);
    for (const name of SPECIMENS) {
      if (name !== SAMPLE)
        expect(await violationsOfNew(page, pages.get(name) ?? '', known, ...THEMES), name).toEqual([]);
      for (const kind of kindsOf(name)) known.add(kind);
    }
  });

  it.each(inFull(SPECIMENS, []))('axe finds nothing on %s as a whole, in any theme', async (name) => {
    const { page, leave } = await open(name, 1280);
    expect(await violationsOf(page, ...THEMES)).toEqual([]);
    await leave();
  });

  it('axe finds what is wrong with what a page has besides', async () => {
    const { page, leave } = await desk.open('blank', '<!doctype html><title>blank</title>', 1280);
    const html = `<html lang="en"><title>t</title><main><h1>t</h1><p>known</p><img src="data:,"><section class="new">
      <p style="color: #eee">pale</p></section></main>`;
    const found = await violationsOfNew(page, html, kindsOn('<main><h1><p>'), 'light');
    expect(found.map((one) => one.replace(/: <.*/s, ''))).toEqual(['image-alt', 'light: color-contrast']);
    await leave();
  });

  it('is asked of every kind of element that any page has', () => {
    const asked = new Set(SPECIMENS.flatMap((name) => [...kindsOf(name)]));
    const others = [...pages.keys()].flatMap((name) =>
      [...kindsOf(name)].filter((kind) => !asked.has(kind)).map((kind) => `${kind} of ${name}`),
    );
    expect(others).toEqual([]);
  });
});
