/**
 * How much of what is random or repeated a run of the tests takes: a small, fixed share in `npm test`, so that it stays
 * quick and says the same on every machine; all of it, drawn anew, in `npm run thorough`.
 */
const IS_THOROUGH = process.env.THOROUGH === '1';

/** The evening of the sample nights: a seed as good as any. */
const SEED = 20261014;

/** The share of a property's runs that `npm test` makes, and the fewest. */
const SHARE = 0.1;
const FEWEST = 3;

/**
 * How often fast-check tries a property.
 *
 * @param many runs of `npm run thorough`
 */
export function runs(many: number): { readonly numRuns: number; readonly seed?: number } {
  return IS_THOROUGH
    ? { numRuns: many }
    : { numRuns: Math.min(many, Math.max(FEWEST, Math.ceil(SHARE * many))), seed: SEED };
}

/** What `npm run thorough` takes, and the less that proves the same in `npm test`. */
export function inFull<T>(whole: T, less: T): T {
  return IS_THOROUGH ? whole : less;
}

/**
 * Cases of one kind, of which each alone proves the point.
 *
 * @param few as many as `npm test` takes, spread over the list, its first among them
 */
export function some<T>(all: readonly T[], few: number): readonly T[] {
  if (IS_THOROUGH || few >= all.length) return all;
  return Array.from({ length: few }, (_, i) => Math.floor((i * all.length) / few)).flatMap((at) =>
    all.slice(at, at + 1),
  );
}
