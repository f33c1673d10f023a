/** Exposure begins that are not exposures. */
import { formatSource, listed, type Warning } from '../model/index.js';
import type { Pairing } from './pair-by-name.js';

/** No light exposure is shorter, seconds (common practice, no source). */
const SHORTEST_MS = 1000;
/** Maximum number of dialect rules named. */
const RULES_NAMED = 3;

/**
 * A begin without a length, an end or a file, after which the log continues immediately: a line about something else
 * that a rule takes for an exposure.
 */
export function isEmpty({ header, log }: Pairing): boolean {
  if (header !== undefined || log === undefined || log.endKnown || log.file !== undefined) return false;
  return log.askedMs === undefined && log.endMs - log.beginMs < SHORTEST_MS;
}

/** Reports such begins, and the rules that made them. */
export function withoutLength(train: string, empty: readonly Pairing[]): Warning {
  const logged = empty.flatMap(({ log }) => log ?? []);
  const rules = [...new Set(logged.flatMap(({ rule }) => (rule === undefined ? [] : formatSource(rule))))];
  const count = empty.length;
  const remedy =
    rules.length === 0
      ? 'Have the log state "seconds" in exposure-begin, or write exposure-end'
      : `Correct the rules that turn such lines into exposure-begin: ${listed(rules.slice(0, RULES_NAMED))}`;
  return {
    code: 'exposure-without-length',
    message:
      `${train}: ${count} exposure${count === 1 ? '' : 's'} of the log (this line begins the first) have ` +
      `no length, no end and no file: they are not counted. ${remedy}`,
    source: logged[0]?.sources[0],
    count,
  };
}
