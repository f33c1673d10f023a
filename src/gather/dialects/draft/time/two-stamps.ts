import { newStamp, StampPattern } from '../../time/stamp.js';
import { escapeBraces, increment } from './counting.js';
import type { StampGuess } from './guess.js';
import { proofOf } from './stamp-proof.js';

/** Placeholder for the second stamp of a line that has none: dots, dashes, or the like. */
const NONE = /^[\s]{0,3}[.·_~?*x–—-]{1,30}(?=\s|$|[|;,/])/u;
const SHARE = 0.4;

/**
 * Pairs of counters, `0042/0310`: the separator belongs to the stamp, so that the second is a value of the line.
 * Unchanged if most lines have one counter.
 */
export function beforeSecondCount(guess: StampGuess, lines: readonly string[]): StampGuess {
  if (guess.at !== 'start' || !guess.pattern.endsWith('}') || !guess.pattern.includes('{elapsed')) return guess;
  const first = new StampPattern(guess.pattern);
  const connectors = new Map<string, number>();
  let read = 0;
  let pairs = 0;
  for (const line of lines) {
    const bytes = Buffer.from(line.slice(0, 400));
    const stamp = newStamp();
    if (!first.readAt(bytes, 0, bytes.length, stamp)) continue;
    read++;
    const rest = bytes.subarray(stamp.end).toString('utf8');
    const [, connector] = /^(\s{0,2}[^\p{L}\d\s.,:]{1,3}\s{0,2})(?=.)/u.exec(rest) ?? [];
    if (connector === undefined) continue;
    const second = rest.slice(connector.length);
    const isCount = /^\d[\d:.,]*(?=\s|$)/.test(second);
    if (!isCount && !NONE.test(second)) continue;
    if (isCount) pairs++;
    increment(connectors, connector);
  }
  const [connector, count] = [...connectors].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  if (count < 0.95 * read || pairs < SHARE * read) return guess;
  const pattern = `${guess.pattern}${escapeBraces(connector)}`;
  return { ...guess, pattern, coverage: proofOf(new StampPattern(pattern), 'start', lines).coverage };
}
