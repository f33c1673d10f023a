/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
/** What axe finds on a page, in its themes. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type axe from 'axe-core';
import type { Page } from 'puppeteer-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * Leaves two of each kind among the children of every element: two rows of a table that differ in words alone are
 * the same to axe, and a night has hundreds. Kind is tag, class, colours, names for the blind being there or not, and
 * the same of everything within. What another element refers to stays. Runs in the page.
 *
 * @returns how many elements went
 */
function thinOut(): number {
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
  let gone = 0;
  const thin = (parent: Element): void => {
    const seen = new Map<string, number>();
    for (const child of [...parent.children]) {
      const kind = kindOf(child);
      const count = (seen.get(kind) ?? 0) + 1;
      seen.set(kind, count);
      const needed = [child, ...child.querySelectorAll('[id]')].some((one) => referred.has(one.id) && one.id !== '');
      if (count > 2 && !needed) {
        child.remove();
        gone++;
      } else {
        thin(child);
      }
    }
  };
  thin(document.body);
  return gone;
}

/** Asks every rule, or only those of colour: nothing else changes with the theme. Runs in the page. */
async function ask(isAll: boolean): Promise<string[]> {
  const { axe: runner } = window as typeof window & { axe: typeof axe };
  const { violations } = await runner.run(document, {
    resultTypes: ['violations'],
    preload: false,
    ...(isAll ? {} : { runOnly: ['color-contrast', 'link-in-text-block'] }),
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
 * The rules that a page breaks, each with its theme and the first elements that do: every rule in the first theme, and
 * those of colour in the others. The page is thinned out and of no other use afterwards.
 */
export async function violationsOf(page: Page, ...themes: readonly string[]): Promise<string[]> {
  const found: string[] = [];
  for (const [index, theme] of themes.entries()) {
    await page.evaluate((value) => {
      document.documentElement.dataset.theme = value;
    }, theme);
    if (index === 0) {
      await page.evaluate(thinOut);
      await page.evaluate(AXE);
    }
    const broken = await page.evaluate(ask, index === 0);
    found.push(...broken.map((rule) => `${theme}: ${rule}`));
  }
  return found;
}

/** The kinds of element on a page: tag, classes but those that a window's width shows or hides, and role. */
export function kindsOn(html: string): ReadonlySet<string> {
  const attribute = (name: string, of: string): string => new RegExp(` ${name}="([^"]*)"`).exec(of)?.[1] ?? '';
  return new Set(
    [...html.matchAll(/<([a-z][a-z0-9]*)\b([^>]*)>/gi)].map(([, tag = '', rest = '']) => {
      const classes = attribute('class', rest)
        .split(/\s+/)
        .filter((name) => !name.startsWith('fit-'));
      return [tag, ...classes.sort(), attribute('role', rest)].join(' ');
    }),
  );
}
