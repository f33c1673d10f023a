/**
 * One name per filter and target, however the capture programs spell them.
 */
import type { Target } from '../model/index.js';

/** Common spellings of the filters, folded to letters and digits. Common practice, no source. */
const FILTER_SPELLINGS: Readonly<Record<string, readonly string[]>> = {
  L: ['l', 'lum', 'luminance', 'clear', 'luminosity'],
  R: ['r', 'red'],
  G: ['g', 'green'],
  B: ['b', 'blue'],
  Ha: ['ha', 'halpha', 'hydrogenalpha', 'hα'],
  OIII: ['oiii', 'o3', 'oxygeniii'],
  SII: ['sii', 's2', 'sulfurii', 'sulphurii'],
};

const BY_SPELLING = new Map(
  Object.entries(FILTER_SPELLINGS).flatMap(([name, spellings]) => spellings.map((s) => [s, name] as const)),
);

/** Returns a function that gives the name to show for a filter; unknown names are kept as they are. */
export function filterNamer(aliases: Readonly<Record<string, string>>): (raw: string) => string {
  const own = new Map(Object.entries(aliases).map(([alias, name]) => [fold(alias), name]));
  return (raw) => own.get(fold(raw)) ?? BY_SPELLING.get(fold(raw)) ?? raw.trim();
}

/** Returns a function that gives the known target meant by a name, or `undefined`. */
export function targetFinder(targets: readonly Target[]): (raw: string) => Target | undefined {
  const byName = new Map(targets.flatMap((t) => [t.name, ...t.aliases].map((name) => [fold(name), t] as const)));
  return (raw) => byName.get(fold(raw));
}

/** Letters and digits only, lower case: `H-alpha` = `Halpha`, `NGC 281` = `ngc281`. */
export function fold(text: string): string {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '');
}
