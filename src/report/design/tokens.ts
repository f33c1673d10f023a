import type { Account } from '../../model/index.js';
import { readTemplate } from '../package-files.js';
import { contrast } from './contrast.js';

/** The four variants of every colour. `print` is used on paper, whatever the screen theme. */
export const THEMES = ['light', 'dark', 'red', 'print'] as const;
export type Theme = (typeof THEMES)[number];

/** How an area is filled in addition to its colour, so that it is distinguishable without it. */
export type PatternName = 'solid' | 'half' | 'stripes' | 'crossed' | 'dots' | 'hatch' | 'outline';

interface TokenFile {
  readonly themes: readonly Theme[];
  readonly colours: Readonly<Record<string, readonly string[]>>;
  /** Dashes across an area, px; empty if the pattern has none. */
  readonly patterns: Readonly<Record<PatternName, string>>;
  readonly accounts: Readonly<Record<Account, PatternName>>;
}

/** Colours and patterns, from `templates/styles/tokens.json`. */
export interface Tokens extends TokenFile {
  /** Colour names in the file's order: an index into this list is how a chart's colour is encoded. */
  readonly names: readonly string[];
}

let loaded: Tokens | undefined;

/** The design tokens, read once. */
export function tokens(): Tokens {
  if (loaded === undefined) {
    const file = JSON.parse(readTemplate('styles/tokens.json')) as TokenFile;
    loaded = { ...file, names: Object.keys(file.colours) };
  }
  return loaded;
}

/**
 * One colour as `#rrggbb`.
 *
 * @throws RangeError when no token has that name
 */
export function colour(name: string, theme: Theme): string {
  const { colours, themes } = tokens();
  const value = colours[name]?.[themes.indexOf(theme)];
  if (value === undefined)
    throw new RangeError(`templates/styles/tokens.json has no colour "${name}" for the ${theme} theme`);
  return value;
}

const BLACK = '#000000';
const WHITE = '#ffffff';

/** The colour's CSS: `var(--name)`. */
export function cssColour(name: string): string {
  return `var(--${name})`;
}

/** Black or white, whichever is more legible on the named colour: one of them always has 4.5:1. For text in a block. */
export function letterOn(name: string, theme: Theme): string {
  const ground = colour(name, theme);
  return contrast(BLACK, ground) >= contrast(WHITE, ground) ? BLACK : WHITE;
}

function declarations(theme: Theme): string {
  const { names } = tokens();
  const own = names.map((name) => `--${name}:${colour(name, theme)}`);
  const letters = names
    .filter((name) => name.startsWith('filter-'))
    .map((name) => `--on-${name}:${letterOn(name, theme)}`);
  return [...own, ...letters, `color-scheme:${theme === 'light' || theme === 'print' ? 'light' : 'dark'}`].join(';');
}

/**
 * The style sheet's variables: light by default, dark if the reader's system requests it, and each theme when the
 * page's `data-theme` names it. Paper has its own, whatever the screen theme.
 */
export function themeStyles(): string {
  return [
    `:root{${declarations('light')}}`,
    `@media (prefers-color-scheme:dark){:root:not([data-theme]){${declarations('dark')}}}`,
    `:root[data-theme=dark]{${declarations('dark')}}`,
    `:root[data-theme=red]{${declarations('red')}}`,
    `@media print{:root,:root:not([data-theme]),:root[data-theme]{${declarations('print')}}}`,
  ].join('\n');
}
