import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { renderHtml } from '../../../src/report/index.js';
import { CIERZO_HILL, namedNight, USUAL_NAMES } from '../../support/nights.js';
import { altered } from '../../support/altered.js';
import { renderedNight, undrawnNight } from '../../support/rendered.js';
import { inFull } from '../../support/runs.js';

const OPTIONS = { nowMs: Date.parse('2026-10-20T08:00:00Z'), version: '0.0.0' };
const pages = new Map<string, string>();
/** Whose charts are drawn: with all kinds of them, with names like markup, the shortest, and what browsers show. */
const DRAWN = inFull(USUAL_NAMES, ['twin-night', 'long-names', 'two-hours', 'polar-summer', 'no-frames']);

beforeAll(async () => {
  for (const name of USUAL_NAMES)
    pages.set(name, await (DRAWN.includes(name) ? renderedNight(name) : undrawnNight(name)));
});

const page = (name: string): string => pages.get(name) ?? '';
const inside = (html: string, tag: string): string => new RegExp(`<${tag}>([\\s\\S]*?)</${tag}>`).exec(html)?.[1] ?? '';
/** What a reader sees and hears: text and labels, without style, script and places of drawings. */
const spoken = (html: string): string =>
  html
    .replaceAll(/<(style|script)>[\s\S]*?<\/\1>/g, '')
    .replaceAll(
      / (?:d|x|y|x1|x2|y1|y2|width|height|viewBox|transform|content|class|id|href|fill|stroke|points)="[^"]*"/g,
      '',
    );

describe.each(USUAL_NAMES)('the page of %s', (name) => {
  it('says nothing that is not a figure', () => {
    expect(spoken(page(name))).not.toMatch(/\b(?:NaN|undefined|null|Infinity)\b|\[object/);
  });

  it('ends no line between a figure and its unit, nor within a designation', () => {
    const texts =
      page(name)
        .split('<body')[1]
        ?.split('<script>')[0]
        ?.match(/(?<=>)[^<>]+(?=<)/g) ?? [];
    expect(texts.some((text) => /\d\u00a0(?:h|min|s|%)/.test(text))).toBe(true);
    // A file name must be copyable as it is.
    expect(texts.filter((text) => /\d (?:h|min|s|%)(?!\w)/.test(text) && !text.includes('.fits'))).toEqual([]);
    expect(texts.filter((text) => /\b(?:NGC|IC|M) \d/.test(text) && !text.includes('.fits'))).toEqual([]);
  });

  it('asks for nothing and leads nowhere', () => {
    const html = page(name).replaceAll(/url\(data:[^)]*\)/g, '');
    expect(html).not.toMatch(/<(?:link|img|iframe|object|embed|base|form)\b/);
    expect(html).not.toMatch(/\b(?:src|href|action|poster|data)="(?!#)/);
    expect(html).not.toMatch(/@import|url\((?!#)/);
    expect(html).not.toMatch(/https?:/);
  });

  it('allows only its own style and script, and no inline ones', () => {
    const html = page(name);
    for (const tag of ['style', 'script']) {
      const hash = createHash('sha256').update(inside(html, tag)).digest('base64');
      expect(html).toContain(`${tag}-src 'sha256-${hash}'`);
    }
    expect(html).toContain("default-src 'none'");
    expect(html).not.toMatch(/ style="| on[a-z]+="/);
  });

  it('has a language, a title, one first heading and headings in order', () => {
    const html = page(name);
    expect(html).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(html).toMatch(/<title>Night of \d/);
    const levels = [...html.matchAll(/<h([1-6])[ >]/g)].map((match) => Number(match[1]));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    for (let index = 1; index < levels.length; index++)
      expect((levels[index] ?? 0) - (levels[index - 1] ?? 0)).toBeLessThanOrEqual(1);
  });

  it('has every id once, and every link a goal', () => {
    const html = page(name);
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map((match) => match[1] ?? '');
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
    const known = new Set(ids);
    for (const match of html.matchAll(/ href="#([^"]*)"/g)) expect(known.has(match[1] ?? ''), match[1]).toBe(true);
  });
});

/** A night at a site of that name. */
const siteCalled = (name: string) => altered(namedNight('two-hours'), { gathered: { site: { ...CIERZO_HILL, name } } });

describe('the page', () => {
  it('stays below a megabyte and a half for a night of three hundred frames', () => {
    expect(namedNight('twin-night').accounts.lights.length).toBeGreaterThanOrEqual(295);
    expect(Buffer.byteLength(page('twin-night'))).toBeLessThan(1_500_000);
  });

  it('prints names that look like markup or templates as they are', () => {
    const html = page('long-names');
    expect(html).not.toContain('<script>alert');
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt; {{x}} &amp; &quot;quoted&quot;');
    expect(html).toContain('{{{filter}}}');
    expect(html.match(/<script>/g)).toHaveLength(1);
  });

  it('keeps a name out of the style sheet’s syntax', async () => {
    const html = await renderHtml(siteCalled('"}</style><b>'), OPTIONS);
    expect(html.match(/<\/style>/g)).toHaveLength(1);
    expect(inside(html, 'style')).not.toContain('"}<');
  });

  it('shows the same night the same, whatever the machine’s own zone', async () => {
    const before = process.env.TZ;
    process.env.TZ = 'Pacific/Auckland';
    const elsewhere = await renderHtml(namedNight('two-hours'), OPTIONS);
    if (before === undefined) delete process.env.TZ;
    else process.env.TZ = before;
    expect(elsewhere).toBe(page('two-hours'));
  });

  it('carries letters of other scripts when a name needs them', async () => {
    const greek = await renderHtml(siteCalled('Холм'), OPTIONS);
    expect(greek.match(/@font-face/g)?.length ?? 0).toBeGreaterThan(
      page('two-hours').match(/@font-face/g)?.length ?? 0,
    );
  });
});
