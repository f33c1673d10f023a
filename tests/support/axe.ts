/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
/** What axe finds on a page, in its themes. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type axe from 'axe-core';
import type { Page } from 'puppeteer-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * Leaves few of each kind among the children of every element: two rows of a table that differ in words alone are the
 * same to axe, and a night has hundreds. Kind is tag, class, colours, names for the blind being there or not, and the
 * same of everything within. What another element refers to stays. Runs in the page.
 *
 * @param most how many of a kind stay, of those within a picture only one
 */
function thinOut(most: number): void {
  const referred = new Set(
    [...document.querySelectorAll('[aria-labelledby], [aria-describedby], [aria-controls], [for]')].flatMap((one) =>
      ['aria-labelledby', 'aria-describedby', 'aria-controls', 'for'].flatMap((name) =>
        (one.getAttribute(name) ?? '').split(/\s+/),
      ),
    ),
  );
  const NAMES = ['aria-label', 'alt', 'title', 'href', 'scope', 'tabindex', 'aria-hidden', 'headers'];
  const VALUES = ['class', 'role', 'style', 'fill', 'lang', 'type', 'colspan'];
  const kinds = new Map<Element, string>();
  const kindOf = (element: Element): string => {
    const known = kinds.get(element);
    if (known !== undefined) return known;
    const words = [...element.childNodes].some((node) => node.nodeType === 3 && node.nodeValue?.trim() !== '');
    const names = NAMES.filter((name) => element.hasAttribute(name)).map((name) =>
      element.getAttribute(name)?.trim() === '' ? `${name} empty` : name,
    );
    const values = VALUES.map((name) => element.getAttribute(name) ?? '');
    const within = [...element.children].map(kindOf);
    const kind = `${element.tagName}(${[words, ...names, ...values].join()})[${within.join()}]`;
    kinds.set(element, kind);
    return kind;
  };
  const thin = (parent: Element): void => {
    const seen = new Map<string, number>();
    for (const child of [...parent.children]) {
      const kind = kindOf(child);
      const count = (seen.get(kind) ?? 0) + 1;
      seen.set(kind, count);
      const needed = [child, ...child.querySelectorAll('[id]')].some((one) => referred.has(one.id) && one.id !== '');
      if (count > (child instanceof SVGElement ? 1 : most) && !needed) child.remove();
      else thin(child);
    }
  };
  thin(document.body);
}

/** Empties pictures: axe judges no colour within one (it calls them `incomplete`). Runs in the page. */
function emptyPictures(): void {
  for (const picture of document.querySelectorAll('svg')) picture.replaceChildren();
}

/**
 * Puts in the page's place what another page has of kinds that are not known, each within what it stands in, and
 * whole where it is a table or a list; besides all headings. Runs in the page.
 *
 * @param known kinds as {@link kindsOn} writes them
 */
function showOnlyNew(html: string, known: readonly string[]): void {
  const other = new DOMParser().parseFromString(html, 'text/html');
  const old = new Set(known);
  const kindOf = (element: Element): string =>
    [
      element.localName,
      ...[...element.classList].filter((name) => !name.startsWith('fit-')).sort(),
      element.getAttribute('role') ?? '',
    ].join(' ');
  const kept = new Set<Element>();
  const wholes = new Set<Element>();
  const keep = (element: Element): void => {
    const whole = element.closest('table, ul, ol, dl') ?? element;
    if (wholes.has(whole)) return;
    wholes.add(whole);
    for (const one of whole.querySelectorAll('*')) kept.add(one);
    for (let one: Element | null = whole; one !== null; one = one.parentElement) kept.add(one);
  };
  for (const element of other.body.querySelectorAll('*'))
    if (element.matches('h1, h2, h3, h4, h5, h6, summary') || !old.has(kindOf(element))) keep(element);
  for (const element of kept) {
    const ids = ['aria-labelledby', 'aria-describedby', 'aria-controls', 'for'].flatMap((name) =>
      (element.getAttribute(name) ?? '').split(/\s+/),
    );
    for (const id of ids) {
      const one = id === '' ? null : other.getElementById(id);
      // A set is gone through to its end, also what is added meanwhile.
      if (one !== null && !kept.has(one)) keep(one);
    }
  }
  for (const element of other.body.querySelectorAll('*')) if (!kept.has(element)) element.remove();
  document.documentElement.replaceWith(document.adoptNode(other.documentElement));
}

const COLOUR_RULES = ['color-contrast', 'link-in-text-block'] as const;

/** Asks the rules of colour, or all others: nothing else changes with the theme. Runs in the page. */
async function ask(isOfColour: boolean, rules: readonly string[]): Promise<string[]> {
  const { axe: runner } = window as typeof window & { axe: typeof axe };
  const { violations } = await runner.run(document, {
    resultTypes: ['violations'],
    preload: false,
    // Elements are named by their own text (`html`).
    selectors: false,
    ...(isOfColour
      ? { runOnly: [...rules] }
      : { rules: Object.fromEntries(rules.map((rule) => [rule, { enabled: false }])) }),
  });
  return violations.map(
    (one) =>
      `${one.id}: ${one.nodes
        .slice(0, 3)
        .map((node) => node.html.slice(0, 160))
        .join(' … ')}`,
  );
}

/**
 * The rules that a page breaks, those of colour each with its theme, and the first elements that do. The page is
 * thinned out and of no other use afterwards than for {@link violationsOfNew}.
 */
export async function violationsOf(page: Page, ...themes: readonly string[]): Promise<string[]> {
  await page.evaluate(thinOut, 2);
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(AXE);
  const found = await page.evaluate(ask, false, COLOUR_RULES);
  await page.evaluate(emptyPictures);
  await page.evaluate(thinOut, 1);
  for (const theme of themes) {
    await page.evaluate((value) => {
      document.documentElement.dataset.theme = value;
    }, theme);
    const broken = await page.evaluate(ask, true, COLOUR_RULES);
    found.push(...broken.map((rule) => `${theme}: ${rule}`));
  }
  return found;
}

/** {@link violationsOf} what another page has of kinds of element that are not among the known. */
export async function violationsOfNew(
  page: Page,
  html: string,
  known: ReadonlySet<string>,
  ...themes: readonly string[]
): Promise<string[]> {
  await page.evaluate(showOnlyNew, html, [...known]);
  return violationsOf(page, ...themes);
}

/** The kinds of element on a page: tag, classes but those that a window's width shows or hides, and role. */
export function kindsOn(html: string): ReadonlySet<string> {
  return new Set(
    [...html.matchAll(/<([a-z][a-z0-9]*)\b([^>]*)>/gi)].map(([, tag = '', rest = '']) => {
      const classes = (/ class="([^"]*)"/.exec(rest)?.[1] ?? '')
        .split(/\s+/)
        .filter((name) => name !== '' && !name.startsWith('fit-'));
      return [tag, ...classes.sort(), / role="([^"]*)"/.exec(rest)?.[1] ?? ''].join(' ');
    }),
  );
}
