/** Marks that let their ground through: what is seen is a mixture, and the mixture has to stand out. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { channels, contrast } from '../../../src/report/design/contrast.js';
import { colour, THEMES, tokens, type Theme } from '../../../src/report/design/tokens.js';
import { DARKEST } from '../../../src/report/html/view/star-zones.js';

const STYLES = fileURLToPath(new URL('../../../templates/styles', import.meta.url));
const GROUNDS = tokens().names.filter((name) => /^paper|^sky-/.test(name));
const TRAINS = tokens().names.filter((name) => name.startsWith('train-'));

/** Lines that help the eye along and say nothing themselves, and shades between outlines of full strength. */
const NO_MARKS = new Set(['.hours line', '.mount .base', '.common']);
/** Marks in the colour of a train, which the page sets. */
const OF_TRAINS = new Set(['.way']);
/** Marks of the key whose colour stands in a rule for all of them. */
const OF_INK = new Set(['.swatch.mark-settle path']);

interface Faint {
  readonly selector: string;
  readonly colours: readonly string[];
  readonly opacity: number;
}

/** Rules of the style sheets that make a fill or a stroke faint, unless a stroke of full strength runs around it. */
const FAINT = readdirSync(STYLES)
  .filter((file) => file.endsWith('.css'))
  .flatMap((file) => [...readFileSync(join(STYLES, file), 'utf8').matchAll(/([^{}]+)\{([^{}]*)\}/g)])
  .flatMap(([, selectors = '', rule = '']): Faint[] => {
    const selector = selectors.replace(/\/\*.*?\*\//gs, '').trim();
    return [...rule.matchAll(/(fill|stroke)-opacity:([\d.]+)/g)].flatMap(([, what = '', opacity = '']) => {
      const name = new RegExp(`(?:^|;)${what}:var\\(--([a-z0-9-]+)\\)`).exec(rule)?.[1];
      const isOutlined = what === 'fill' && rule.includes(`stroke:var(--${name ?? ''})`);
      if (isOutlined || NO_MARKS.has(selector)) return [];
      const colours =
        name === undefined ? (OF_TRAINS.has(selector) ? TRAINS : OF_INK.has(selector) ? ['ink'] : []) : [name];
      return [{ selector, colours, opacity: Number(opacity) }];
    });
  });

/** A colour laid on another, mixed as screens mix them. */
function mixed(top: string, ground: string, opacity: number): string {
  const under = channels(ground);
  const parts = channels(top).map((one, i) => Math.round(255 * (one * opacity + (under[i] ?? 0) * (1 - opacity))));
  return `#${parts.map((one) => one.toString(16).padStart(2, '0')).join('')}`;
}

const tone = (name: string, theme: Theme): string => colour(name, theme);

describe('faint marks', () => {
  it('are known by their colours', () => {
    expect(FAINT.length).toBeGreaterThan(1);
    for (const { selector, colours } of FAINT) expect(colours, selector).not.toEqual([]);
  });

  // 3 is the least that WCAG 2.2 (success criterion 1.4.11) asks of marks, 4.5 of text (1.4.3).
  it.each(THEMES)('stand out from every ground they may lie on: %s', (theme) => {
    for (const { selector, colours, opacity } of FAINT)
      for (const name of colours)
        for (const ground of name.startsWith('train-') ? ['paper', 'paper-deep'] : GROUNDS) {
          const under = tone(ground, theme);
          expect(
            contrast(mixed(tone(name, theme), under, opacity), under),
            `${selector}: ${name} on ${ground}`,
          ).toBeGreaterThanOrEqual(3);
        }
  });

  it.each(THEMES)('leave figures legible on the darkest zone of a sensor: %s', (theme) => {
    const [ink, paper] = [tone('ink', theme), tone('paper', theme)];
    expect(contrast(ink, mixed(ink, paper, DARKEST))).toBeGreaterThanOrEqual(4.5);
  });

  it.each(THEMES)('need a rim where they are pale: the calendar’s and the cascade’s bars: %s', (theme) => {
    // Bars of `bar` and `paper-deep` have a rim of `ink-soft`, which has to stand out from paper and from both.
    for (const ground of ['paper', 'paper-deep', 'bar'])
      expect(contrast(tone('ink-soft', theme), tone(ground, theme)), ground).toBeGreaterThanOrEqual(3);
    // What was kept lies within what was used.
    expect(contrast(tone('account-kept', theme), tone('bar', theme))).toBeGreaterThanOrEqual(3);
  });
});
