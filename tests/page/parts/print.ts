import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LAST_LEVEL, type Paper, type PrintWork } from '../../../src/report/pdf/index.js';
import { BRIEF_PAGES, PRINT_EDITIONS, type PrintEdition } from '../../../src/report/index.js';
import { openDesk, type Desk } from '../../support/browser.js';
import { withoutDrawing } from '../../support/drawn-once.js';
import { exhibits } from '../../support/gallery.js';
import { namedNight } from '../../support/nights.js';
import { titlesOf } from '../../support/pdf-reader.js';
import { expectWellSet, printed, type Printed } from '../../support/printed.js';
import { printOf } from '../../support/rendered.js';
import { inFull } from '../../support/runs.js';

const SAMPLE = 'sample-twin-night';
/** The night whose full edition is read word by word: `npm test` takes one of a third of the frames. */
const READ = inFull(SAMPLE, 'evening');
/** A short session with pixels: pictures of stars, and how the trains pointed. */
const STARS = 'sample-star-night';
/**
 * From twenty frames to nine hundred, of one train to three. One night has all that makes a print long: three trains,
 * nine hundred frames, long names and fourteen hours.
 */
const NIGHTS = inFull<Readonly<Record<PrintEdition, readonly string[]>>>(
  {
    brief: [SAMPLE, 'one-train', 'twenty-frames', 'longest', 'headers-only', 'no-frames', STARS],
    full: [SAMPLE, STARS, 'one-train', 'twenty-frames', 'fourteen-hours', 'longest'],
  },
  { brief: ['longest', 'no-frames', STARS], full: [READ, 'twenty-frames'] },
);
/** The night of each edition whose heads and feet are read. */
const HEADED: Readonly<Record<PrintEdition, string>> = { brief: inFull(SAMPLE, STARS), full: READ };
/** The night whose headings are counted, and that which is printed with a page for every heading. */
const [COUNTED, BROKEN] = inFull(['longest', 'longest'], [READ, 'twenty-frames']);
/** A night whose table of frames goes on for pages. */
const MANY_FRAMES = inFull('one-train', READ);
/**
 * How tightly a night's brief edition is set at first. `npm test` begins with what the longest needs, and for the night
 * of stars with the last setting before that: it has to be found too long.
 */
const FIRST_LEVEL = inFull<Record<string, number>>({}, { longest: LAST_LEVEL, [STARS]: 2 });
/** Nights on the shorter, wider paper; `npm test` prints them on that alone. */
const ON_LETTER: Readonly<Record<PrintEdition, readonly string[]>> = {
  brief: inFull([SAMPLE, 'longest'], ['longest']),
  full: ['twenty-frames'],
};
const casesOf = (edition: PrintEdition): (readonly [string, Paper])[] => [
  ...NIGHTS[edition]
    .filter((name) => inFull(true, !ON_LETTER[edition].includes(name)))
    .map((name) => [name, 'a4'] as const),
  ...ON_LETTER[edition].map((name) => [name, 'letter'] as const),
];

/** An A4 page between its margins: 210 mm less twice 14, at 96 px an inch. */
const A4_INNER_PX = Math.floor(((210 - 2 * 14) / 25.4) * 96);

let desk: Desk;
const works = new Map<string, PrintWork>();
beforeAll(async () => {
  desk = await openDesk();
  for (const edition of PRINT_EDITIONS)
    for (const name of NIGHTS[edition]) works.set(`${name} ${edition}`, await printOf(name, edition));
});
afterAll(() => desk.close());

const done = new Map<string, Promise<Printed>>();

function pdf(name: string, edition: PrintEdition, paper: Paper): Promise<Printed> {
  const key = `${name} ${edition} ${paper}`;
  const work = works.get(`${name} ${edition}`);
  if (!work) throw new RangeError(`${name} was not rendered`);
  const first = edition === 'brief' ? (FIRST_LEVEL[name] ?? 0) : 0;
  const html: PrintWork['html'] = ({ level, pageOf }) => work.html({ level: first + level, pageOf });
  const isRead = edition === 'full' && name === READ;
  // The numbers of its contents, for which it is printed twice, are read in one.
  const numbersPages = inFull(work.numbersPages === true, isRead);
  const known = done.get(key) ?? printed({ ...work, html, numbersPages }, desk.browser, paper, { withLinks: isRead });
  done.set(key, known);
  return known;
}

const wholeText = ({ pages }: Printed): string =>
  pages
    .map((page) => page.text)
    .join(' ')
    .replaceAll(/\s+/g, ' ');

describe.each(PRINT_EDITIONS)('the %s edition', (edition) => {
  it.each(casesOf(edition))(
    'leaves no page under half full but the last, no heading alone, no word over another: %s, %s',
    async (name, paper) => {
      const whole = await pdf(name, edition, paper);
      if (edition === 'brief') {
        expect(whole.pages.length).toBeLessThanOrEqual(BRIEF_PAGES);
        expect(whole.counted).toBe(whole.pages.length);
      }
      expectWellSet(whole, paper);
    },
  );

  it('has a running head on all pages but the first, and the place at the foot of all', async () => {
    const { pages } = await pdf(HEADED[edition], edition, 'a4');
    for (const [index, page] of pages.entries()) {
      expect(page.text.includes('Cierzo Hill, 40.42° N'), `foot of page ${index + 1}`).toBe(true);
      const heads = page.lines.filter(
        (line) => /^Night of \d+ to \d+ October 2026/.test(line.text) && line.y > page.size[1] - 45,
      );
      expect(heads.length, `head of page ${index + 1}`).toBe(index === 0 ? 0 : 1);
    }
  });

  it('is tagged and stays below two megabytes', async () => {
    const { isTagged, bytes } = await pdf(HEADED[edition], edition, 'a4');
    expect(isTagged).toBe(true);
    expect(bytes).toBeLessThan(2_000_000);
  });
});

describe.each(PRINT_EDITIONS)('the %s edition of long names', (edition) => {
  // A box wider than the paper has the browser print every page smaller. 12 px are 9 pt (CSS Values 4, 6.2).
  it('has no table wider than the paper, and no word outside pictures smaller than 9 pt', async () => {
    const [shown] = await withoutDrawing(() => exhibits(process.cwd(), ['long-names']));
    if (!shown) throw new Error('the night was not rendered');
    const html = shown.pages.print(edition).html({ level: 0, pageOf: null });
    const { page, leave } = await desk.open(`long-names-${edition}`, html, A4_INNER_PX);
    await page.emulateMediaType('print');
    const found = await page.evaluate((width) => {
      const wide = [...document.querySelectorAll('table')].filter(
        (one) => one.getBoundingClientRect().right > width + 1,
      );
      const small = [...document.querySelectorAll('body *:not(style, title, svg, svg *)')].filter(
        (one) =>
          [...one.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim()) &&
          one.getClientRects().length > 0 &&
          Number.parseFloat(getComputedStyle(one).fontSize) < 11.99,
      );
      return {
        wide: wide.map((one) => one.caption?.textContent),
        small: small.map((one) => one.outerHTML.slice(0, 90)),
      };
    }, A4_INNER_PX);
    await page.emulateMediaType('screen');
    await leave();
    expect(found).toEqual({ wide: [], small: [] });
  });
});

describe('page 1 of the brief edition', () => {
  it.each(casesOf('brief'))('is complete in itself: %s, %s', async (name, paper) => {
    const { pages } = await pdf(name, 'brief', paper);
    const [first, second] = pages;
    if (!first) throw new Error('there is no page');
    for (const words of ['Tonight', 'hours', 'Kept', 'Shutter open'])
      expect(first.text.toLowerCase()).toContain(words.toLowerCase());
    expect(first.text).not.toContain('Frames to look at What happened');
    // Of a night without a light there is nothing more to say.
    if (name === 'no-frames') expect(pages).toHaveLength(1);
    else expect(second?.text).toMatch(/2\s+Frames to look at/);
  });
});

describe('a night whose stars were measured', () => {
  it('has how the trains pointed, and its sharpest frames on page 1', async () => {
    const { pages } = await pdf(STARS, 'brief', 'a4');
    const headings = pages.flatMap(({ body }) => body.filter(({ height }) => height > 12).map(({ text }) => text));
    expect(headings.filter((text) => text.includes('Pointing of the pair'))).not.toEqual([]);
    expect(pages[0]?.text).toMatch(/FWHM \d/);
    const full = (await printOf(STARS, 'full')).html({ level: 0, pageOf: null });
    expect(full).toMatch(/<h\d[^>]*>(?:(?!<\/h\d>)[\s\S])*Pointing of the pair/);
  });
});

describe('the full edition', () => {
  it('has a contents list whose page numbers are those of the headings', async () => {
    const { pages } = await pdf(READ, 'full', 'a4');
    const contents = pages.findIndex((page) =>
      page.body.some(({ text, height }) => text === 'Contents' && height > 10),
    );
    const list = pages[contents]?.text ?? '';
    for (const title of ['Ledger', 'Findings', 'Sky', 'Every frame', 'Glossary']) {
      const named = Number(new RegExp(`${title}\\s+(\\d+)`).exec(list)?.[1]);
      const page = pages[named - 1];
      expect(
        page?.body.some(({ text, height }) => text.includes(title) && height > 12),
        `${title} on page ${named}`,
      ).toBe(true);
    }
  });

  it('has no letter smaller than 9 pt, in pictures neither', async () => {
    for (const [name, paper] of casesOf('full')) {
      const { pages } = await pdf(name, 'full', paper);
      // A picture that stands beside another is drawn too.
      expect(pages.map(({ text }) => text).join(' ')).toContain('distance, degrees');
      // Less the rounding of what is scaled.
      expect(pages.flatMap(({ lines }) => lines.filter(({ height }) => height < 8.95).map(({ text }) => text))).toEqual(
        [],
      );
    }
  });

  it('has an outline of all sections in their order', async () => {
    const titles = titlesOf((await pdf(READ, 'full', 'a4')).outline).join(' | ');
    expect(titles).toMatch(/Night of \d+.*Frames to look at.*Ledger.*Findings.*Sky.*Provenance.*Every frame/);
  });

  it('names each heading once in the outline, also where every heading begins a page', async () => {
    const htmlOf = async (name: string): Promise<string> =>
      (works.get(`${name} full`) ?? (await printOf(name, 'full'))).html({ level: 0, pageOf: null });
    const headingsOf = (html: string): number => [...html.matchAll(/<h[1-4][ >]/g)].length;
    const style = '<style>@media print{.part,.finding,.body>h3,.body h4{break-before:page}}</style>';
    const html = await htmlOf(BROKEN);
    const broken = await printed({ html: () => html.replace('</head>', `${style}</head>`) }, desk.browser, 'a4');
    expect(titlesOf(broken.outline)).toHaveLength(headingsOf(html));
    const whole = titlesOf((await pdf(COUNTED, 'full', 'a4')).outline);
    expect(whole).toHaveLength(headingsOf(await htmlOf(COUNTED)));
    const titles = [...whole, ...titlesOf(broken.outline)];
    expect(titles.filter((title) => /(\S.{6,}\S)\s*\1$/.test(title))).toEqual([]);
  });

  it('repeats the heads of a table that goes on', async () => {
    const { pages } = await pdf(MANY_FRAMES, 'full', 'a4');
    const first = pages.findIndex((page) => /heron: \d+ lights/.test(page.text));
    expect(first).toBeGreaterThan(0);
    for (const page of pages.slice(first, -1)) expect(page.text).toMatch(/Verdict\s+Frame\s+Begin\s+Filter, s/);
  });

  it('says it all: sentence, ledger, waits, evidence, rules, every frame', async () => {
    const whole = await pdf(READ, 'full', 'a4');
    for (const words of [
      'both trains together',
      'shutter closed',
      'dither wait',
      'guide star',
      'motionGrace',
      'local time, hours (UTC+2)',
      'limit 25°',
    ])
      expect(wholeText(whole)).toContain(words);
    expect(whole.links).toBeGreaterThan(20);
    const one = wholeText(await pdf(MANY_FRAMES, 'full', 'a4'));
    const night = namedNight(MANY_FRAMES);
    for (const frame of night.accounts.lights.filter((_, index) => index % 25 === 0))
      expect(one).toContain(frame.file?.split('/').at(-1) ?? frame.id);
  });
});
