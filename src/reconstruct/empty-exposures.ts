/**
 * Beginnings of exposures that are none.
 */
import { formatSource, listed, type Warning } from '../model/index.js';
import type { Pairing } from './pair-by-name.js';

/** No exposure of a light is shorter, seconds (common practice, no source). */
const SHORTEST_MS = 1000;
/** So many rules of dialects are named at most. */
const RULES_NAMED = 3;

/**
 * A beginning that states no length, has no end and no file, and after which the log goes on at once: a line of
 * something else that a rule takes for an exposure.
 */
export function isEmpty({ header, log }: Pairing): boolean {
  if (header !== undefined || log === undefined || log.endKnown || log.file !== undefined) return false;
  return log.askedMs === undefined && log.endMs - log.beginMs < SHORTEST_MS;
}

/** Says that there are such beginnings, and which rules made them. */
export function withoutLength(train: string, empty: readonly Pairing[]): Warning {
  const logged = empty.flatMap(({ log }) => log ?? []);
  const rules = [...new Set(logged.flatMap(({ rule }) => (rule === undefined ? [] : formatSource(rule))))];
  const count = empty.length;
  const remedy =
    rules.length === 0
      ? 'Let what writes the log state "seconds" in exposure-begin, or write exposure-end'
      : `Correct what makes exposure-begin of such lines: ${listed(rules.slice(0, RULES_NAMED))}`;
  return {
    code: 'exposure-without-length',
    message:
      `${train}: ${count} exposure${count === 1 ? '' : 's'} of the log, of which this line begins the first, have ` +
      `neither length nor end nor file and are over at once: counted nowhere. ${remedy}`,
    source: logged[0]?.sources[0],
    count,
  };
}
