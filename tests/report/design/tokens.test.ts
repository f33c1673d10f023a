import { describe, expect, it } from 'vitest';
import { ACCOUNTS, VERDICT_KINDS } from '../../../src/model/index.js';
import { contrast } from '../../../src/report/design/contrast.js';
import { colour, letterOn, THEMES, themeStyles, tokens } from '../../../src/report/design/tokens.js';

/** What is drawn as a mark, and of that what is written in too. */
const MARK = /^(?:account|train|target)-|^(?:moon|wait|loss)$/;
const WORDS = /^(?:train|target)-|^(?:moon|loss)$/;
/** Everything that a mark is drawn on. */
const GROUNDS = [
  'paper',
  'paper-deep',
  ...['day', 'civil', 'nautical', 'astronomical', 'dark'].map((sky) => `sky-${sky}`),
];

describe('the token file', () => {
  it('gives every colour a value for every theme', () => {
    expect(tokens().themes).toEqual([...THEMES]);
    for (const name of tokens().names) {
      for (const theme of THEMES) expect(colour(name, theme), `${name}, ${theme}`).toMatch(/^#[0-9a-f]{6}$/);
    }
  });

  it('has a colour and a pattern for every account', () => {
    for (const account of ACCOUNTS) {
      expect(tokens().names).toContain(`account-${account}`);
      expect(tokens().patterns).toHaveProperty(tokens().accounts[account]);
    }
  });

  it('tells the verdicts apart without colour', () => {
    const patterns = VERDICT_KINDS.map((verdict) => tokens().accounts[verdict]);
    expect(new Set(patterns).size).toBe(3);
  });

  it('knows no colour of another name', () => {
    expect(() => colour('beige', 'light')).toThrow(/no colour "beige"/);
  });

  // 4.5 is the least that WCAG 2.2 (success criterion 1.4.3) asks of text.
  it.each(THEMES)('keeps words legible on both papers: %s', (theme) => {
    for (const ground of ['paper', 'paper-deep']) {
      for (const ink of ['ink', 'ink-soft', 'link', 'loss'])
        expect(contrast(colour(ink, theme), colour(ground, theme)), `${ink} on ${ground}`).toBeGreaterThanOrEqual(4.5);
    }
  });

  it.each(THEMES)('keeps words legible on every sky: %s', (theme) => {
    for (const sky of ['day', 'civil', 'nautical', 'astronomical', 'dark']) {
      for (const ink of ['ink', 'ink-soft'])
        expect(contrast(colour(ink, theme), colour(`sky-${sky}`, theme)), `${ink} on ${sky}`).toBeGreaterThanOrEqual(
          4.5,
        );
    }
  });

  // 3 is the least that WCAG 2.2 (success criterion 1.4.11) asks of marks, 4.5 of text (1.4.3).
  it.each(THEMES)('keeps every mark and every coloured word apart from what it lies on: %s', (theme) => {
    for (const name of tokens().names.filter((one) => MARK.test(one)))
      for (const ground of GROUNDS)
        expect(
          contrast(colour(name, theme), colour(ground, theme)),
          `${name} on ${ground}, ${theme}`,
        ).toBeGreaterThanOrEqual(WORDS.test(name) ? 4.5 : 3);
  });

  // Blocks of two filters that meet in the timeline are kept apart by a line of paper around each (pictures.css): it has
  // 3 to both, as every ground has.
  it.each(THEMES)(
    'keeps every filter apart from every ground it is drawn on, and so from the line beside it: %s',
    (theme) => {
      for (const name of tokens().names.filter((one) => one.startsWith('filter-')))
        for (const ground of GROUNDS)
          expect(contrast(colour(name, theme), colour(ground, theme)), `${name} on ${ground}`).toBeGreaterThanOrEqual(
            3,
          );
    },
  );

  it.each(THEMES)('shares no colour between targets, trains, filters and accounts: %s', (theme) => {
    const owners = new Map<string, string>();
    for (const name of tokens().names.filter((one) => /^(?:target|train|filter|account)-/.test(one))) {
      const kind = name.split('-')[0] ?? '';
      const value = colour(name, theme);
      expect(owners.get(value) ?? kind, `${name} is ${value}, ${theme}`).toBe(kind);
      owners.set(value, kind);
    }
  });

  it.each(THEMES)('sets a letter on every filter’s own colour that can be read: %s', (theme) => {
    for (const name of tokens().names.filter((one) => one.startsWith('filter-')))
      expect(contrast(letterOn(name, theme), colour(name, theme)), `${name}, ${theme}`).toBeGreaterThanOrEqual(4.5);
  });

  it('darkens the sky step by step in the light theme', () => {
    const steps = ['day', 'civil', 'nautical', 'astronomical', 'dark'].map((sky) =>
      contrast(colour(`sky-${sky}`, 'light'), '#000000'),
    );
    expect(steps).toEqual([...steps].sort((a, b) => b - a));
  });
});

describe('themeStyles', () => {
  it('sets every variable in every theme, and paper last', () => {
    const css = themeStyles();
    for (const name of tokens().names) expect(css.split(`--${name}:`).length - 1, name).toBe(5);
    expect(css.lastIndexOf('@media print')).toBeGreaterThan(css.lastIndexOf('data-theme=red'));
  });
});
