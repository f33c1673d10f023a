/**
 * Filters under one spelling.
 */
import type { GoalsBook, NightSummary } from '../model/index.js';

/** Maps a filter's name in a record to the name it counts under. */
export type FilterName = (name: string) => string;

/** The book's names first, then the most recent spelling of a filter. */
export function filterNames(nights: readonly NightSummary[], { filterAliases }: GoalsBook): FilterName {
  const spellings = new Map<string, string>();
  for (const name of filterAliases.values()) spellings.set(keyOf(name), name);
  const aliased = (name: string): string => filterAliases.get(keyOf(name)) ?? name.trim();
  for (const night of [...nights].reverse()) {
    for (const { filter } of night.totals) {
      const name = aliased(filter);
      if (!spellings.has(keyOf(name))) spellings.set(keyOf(name), name);
    }
  }
  return (name) => {
    const own = aliased(name);
    return spellings.get(keyOf(own)) ?? own;
  };
}

function keyOf(name: string): string {
  return name.trim().toLowerCase();
}
