/** Printed pages as a reader of PDF finds them: their texts with their places. */
import type { Browser } from 'puppeteer-core';
import { expect } from 'vitest';
import { impressionOf, type Paper, type PrintWork } from '../../src/report/pdf/index.js';
import { pageCountOf } from '../../src/report/pdf/page-count.js';
import { readPdf, type Line, type ReadPdf } from './pdf-reader.js';

/** Points. */
export const PAPER_POINTS: Readonly<Record<Paper, readonly [number, number]>> = { a4: [595, 842], letter: [612, 792] };

/** Above and below these lie running head and foot, points from the page's edges. */
const HEAD = 46;
const FOOT = 38;
/** What is printed ends here at the latest, points from the page's right edge: its margin, less the rounding of widths. */
const RIGHT = 38;

export interface PrintedPage {
  readonly text: string;
  readonly lines: readonly Line[];
  /** Lines between head and foot. */
  readonly body: readonly Line[];
  /** How far down the room between head and foot reaches what is printed, 0 to 1. */
  readonly fill: number;
  readonly size: readonly [number, number];
}

export interface Printed {
  readonly bytes: number;
  /** Pages by the root of its page tree alone, as a printing that may be too long is counted. */
  readonly counted: number | null;
  readonly outline: ReadPdf['outline'];
  readonly about: string;
  readonly isTagged: boolean;
  readonly links: ReadPdf['links'];
  readonly pages: readonly PrintedPage[];
}

/** Prints, and reads what was printed. */
export async function printed(
  work: PrintWork,
  browser: Browser,
  paper: Paper,
  options: { readonly withLinks?: boolean } = {},
): Promise<Printed> {
  const data = await impressionOf(work, browser, paper);
  const { pages, ...rest } = await readPdf(data, options);
  return { bytes: data.byteLength, counted: pageCountOf(data), ...rest, pages: pages.map(measured) };
}

function measured({ size, lines }: ReadPdf['pages'][number], index: number): PrintedPage {
  const [, height] = size;
  const top = index === 0 ? height - 30 : height - HEAD;
  const body = lines.filter((line) => line.y > FOOT && line.y < top);
  const lowest = Math.min(top, ...body.map((line) => line.y));
  const text = lines.map((line) => line.text).join(' ');
  return { text, lines, body, fill: (top - lowest) / (top - FOOT), size };
}

/** Lines that lie over one another, as `one | other`. A line's box has room above and below its letters. */
export function overlapsOf({ body }: PrintedPage): string[] {
  const found: string[] = [];
  for (const [index, a] of body.entries()) {
    for (const b of body.slice(index + 1)) {
      const wide = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
      const high = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
      // The same words twice are the rim of paper behind a chart's label.
      if (wide > 1.5 && high > 0.45 * Math.min(a.height, b.height) && a.text !== b.text)
        found.push(`${a.text} | ${b.text}`);
    }
  }
  return found;
}

/** Headings with fewer than two lines below them on their page. */
export function orphansOf({ body, size }: PrintedPage): string[] {
  return body
    .filter((line) => line.height > 13 && line.height < 20 && line.y < size[1] - 60)
    .filter((line) => body.filter((one) => one.y < line.y - 4).length < 2)
    .map((line) => line.text);
}

/** Lines that reach beyond the page's right margin, where a box would cut them. */
export function cutOf({ lines, size }: PrintedPage): string[] {
  return lines.filter((line) => line.x + line.width > size[0] - RIGHT).map((line) => line.text);
}

/** The texts of a page's highest or lowest row. */
function rowAt({ body }: PrintedPage, end: 'top' | 'foot'): string {
  const ys = body.map((line) => line.y);
  const y = end === 'top' ? Math.max(...ys) : Math.min(...ys);
  return body
    .filter((line) => Math.abs(line.y - y) < 2)
    .map((line) => line.text)
    .join(' ');
}

/** Heads of tables at a page's foot: their rows stand on the next page, below the same head. */
export function headsAlone(pages: readonly PrintedPage[]): string[] {
  return pages.flatMap((page, index) => {
    const next = pages[index + 1];
    const foot = rowAt(page, 'foot');
    return next !== undefined && next.body.length > 0 && foot === rowAt(next, 'top') ? [foot] : [];
  });
}

/** No page under half full but the last, no heading alone, no word over another or cut, the paper's size and number. */
export function expectWellSet({ pages }: Printed, paper: Paper): void {
  expect(headsAlone(pages)).toEqual([]);
  for (const [index, page] of pages.entries()) {
    const where = `page ${index + 1} of ${pages.length}`;
    // In whole per cent.
    if (index < pages.length - 1) expect(Math.round(100 * page.fill), where).toBeGreaterThanOrEqual(50);
    expect(page.body.length, where).toBeGreaterThan(3);
    expect(orphansOf(page), where).toEqual([]);
    expect(overlapsOf(page), where).toEqual([]);
    expect(cutOf(page), where).toEqual([]);
    for (const side of [0, 1] as const)
      expect(Math.abs(page.size[side] - PAPER_POINTS[paper][side]), where).toBeLessThan(1.5);
    expect(page.text).toContain(`${index + 1} of ${pages.length}`);
    expect(page.text).not.toMatch(/\b(?:NaN|undefined|null|Infinity)\b/);
  }
}
