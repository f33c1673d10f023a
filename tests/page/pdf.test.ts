import type { PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pdfOf, type Paper } from '../../src/report/pdf/index.js';
import { openDesk, type Desk } from '../support/browser.js';
import { namedNight } from '../support/nights.js';
import { renderedNight } from '../support/rendered.js';

const POINTS: Readonly<Record<Paper, readonly [number, number]>> = { a4: [595, 842], letter: [612, 792] };

interface Line {
  readonly text: string;
  /** Points from the page's lower edge. */
  readonly y: number;
  readonly height: number;
}

interface Printed {
  readonly bytes: number;
  readonly document: PDFDocumentProxy;
  readonly pages: readonly {
    readonly text: string;
    readonly lines: readonly Line[];
    readonly size: readonly [number, number];
    readonly links: number;
  }[];
}

const SAMPLE = 'sample-twin-night';
/** The longest has three trains, long names and fourteen hours. */
const OTHERS = ['longest', 'no-frames', 'polar-summer', 'headers-only'];

let desk: Desk;
const pages = new Map<string, string>();
beforeAll(async () => {
  desk = await openDesk();
  // Before the PDF reader is loaded: it gives the process drawing classes of its own.
  for (const name of ['twin-night', ...OTHERS, SAMPLE]) pages.set(name, await renderedNight(name));
});
afterAll(() => desk.close());

const printed = new Map<string, Promise<Printed>>();

async function print(name: string, paper: Paper): Promise<Printed> {
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const data = await pdfOf(pages.get(name) ?? '', desk.browser, paper);
  const bytes = data.byteLength;
  const document = await getDocument({ data, useSystemFonts: false, verbosity: 0 }).promise;
  const read: Printed['pages'][number][] = [];
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const content = await page.getTextContent();
    const lines = content.items.flatMap((item): Line[] =>
      'str' in item && item.str.trim() !== ''
        ? [{ text: item.str, y: Number(item.transform[5]), height: item.height }]
        : [],
    );
    const [, , width = 0, height = 0] = page.view;
    const links = (await page.getAnnotations()).filter((one: { subtype?: string }) => one.subtype === 'Link').length;
    read.push({ text: lines.map((line) => line.text).join(' '), lines, size: [width, height] as const, links });
  }
  return { bytes, document, pages: read };
}

function pdf(name: string, paper: Paper): Promise<Printed> {
  const key = `${name} ${paper}`;
  const known = printed.get(key) ?? print(name, paper);
  printed.set(key, known);
  return known;
}

describe.each(['a4', 'letter'] as const)('a normal night on %s', (paper) => {
  it('is tagged, has an outline of its sections, and stays below two megabytes', async () => {
    const { document, bytes } = await pdf('twin-night', paper);
    expect((await document.getMarkInfo())?.Marked).toBe(true);
    const outline = await document.getOutline();
    const titles = outline.flatMap((entry) => [
      entry.title,
      ...entry.items.map((item: { title: string }) => item.title),
    ]);
    expect(titles.some((title) => title.startsWith('Night of 19 to 20 October 2026'))).toBe(true);
    expect(titles.join(' | ')).toMatch(/Ledger.*Findings.*Provenance.*Every frame/);
    expect(bytes).toBeLessThan(2_000_000);
  });

  it('has the paper’s size and a number on every page, and the running head on all but the first', async () => {
    const { pages } = await pdf('twin-night', paper);
    expect(pages.length).toBeGreaterThan(9);
    expect(pages.length).toBeLessThan(26);
    for (const [index, page] of pages.entries()) {
      for (const side of [0, 1] as const) expect(Math.abs(page.size[side] - POINTS[paper][side])).toBeLessThan(1.5);
      expect(page.text).toContain(`${index + 1} of ${pages.length}`);
      expect(page.text.includes('Cierzo Hill, 40.42° N'), `foot of page ${index + 1}`).toBe(true);
      const heads = page.lines.filter(
        (line) => line.text.includes('Night of 19 to 20 October 2026') && line.y > page.size[1] - 45,
      );
      expect(heads.length, `head of page ${index + 1}`).toBe(index === 0 ? 0 : 1);
    }
  });

  it('leaves no page nearly empty and no heading alone at a page’s foot', async () => {
    const { pages } = await pdf('twin-night', paper);
    for (const [index, page] of pages.entries()) {
      expect(page.lines.length, `page ${index + 1}`).toBeGreaterThan(12);
      for (const line of page.lines.filter((one) => one.height > 13.5 && one.y < page.size[1] - 60)) {
        const below = page.lines.filter((one) => one.y < line.y - 4 && one.y > 40);
        expect(below.length, `"${line.text}" on page ${index + 1}`).toBeGreaterThan(2);
      }
    }
  });

  it('repeats the heads of a table that goes on', async () => {
    const { pages } = await pdf('twin-night', paper);
    const first = pages.findIndex(
      (page) => page.text.includes('heron: 1') && page.text.includes('lights') && page.text.includes('Moon distance'),
    );
    expect(first).toBeGreaterThan(0);
    for (const page of pages.slice(first)) expect(page.text).toMatch(/Frame\s+Begin\s+Filter, s\s+Verdict/);
  });

  it('says it all: sentence, ledger, waits, evidence, rules', async () => {
    const { pages } = await pdf('twin-night', paper);
    const text = pages
      .map((page) => page.text)
      .join(' ')
      .replaceAll(/\s+/g, ' ');
    for (const words of [
      'both trains together kept',
      'shutter closed',
      'dither wait',
      'The guide star was lost for',
      'motionGrace',
      'local time, hours (UTC+2)',
      'limit 25°',
    ])
      expect(text).toContain(words);
    expect(text).not.toMatch(/\b(?:NaN|undefined|null|Infinity)\b/);
    expect(pages.reduce((sum, page) => sum + page.links, 0)).toBeGreaterThan(20);
  });
});

describe('other nights on paper', () => {
  it.each(OTHERS)('%s is printed whole', async (name) => {
    const { pages } = await pdf(name, 'a4');
    const text = pages.map((page) => page.text).join(' ');
    expect(text).not.toMatch(/\b(?:NaN|undefined|null|Infinity)\b/);
    for (const frame of namedNight(name).accounts.lights.filter((_, index) => index % 25 === 0))
      expect(text).toContain(frame.file?.split('/').at(-1) ?? frame.id);
    for (const [index, page] of pages.entries()) {
      expect(page.text).toContain(`${index + 1} of ${pages.length}`);
      expect(page.lines.length, `page ${index + 1}`).toBeGreaterThan(5);
    }
  });
});

describe('a sample session on paper', () => {
  it('has every section, in the order of its outline, below two megabytes', async () => {
    const { document, bytes, pages: printedPages } = await pdf(SAMPLE, 'a4');
    expect(bytes).toBeLessThan(2_000_000);
    const outline = await document.getOutline();
    const titles = outline
      .flatMap((entry) => [entry.title, ...entry.items.map((item: { title: string }) => item.title)])
      .join(' | ');
    expect(titles).toMatch(/Ledger.*Findings.*Integration.*Dither cycles.*Sky.*Guiding.*Every frame/);
    for (const [index, page] of printedPages.entries())
      expect(page.lines.length, `page ${index + 1}`).toBeGreaterThan(5);
  });
});
