import { newStamp, StampPattern } from '../../time/stamp.js';
import { escapeBraces, increment } from './counting.js';
import type { StampGuess } from './guess.js';
import { proofOf } from './stamp-proof.js';
import { stampsIn } from './stamp-shapes.js';

/** Text between two stamps of a line. */
const BETWEEN_STAMPS = 12;

/**
 * Lines with two stamps, `asked 21:30:00 > done 21:31:10`: the log is written in the order of the one that never goes
 * back. `null` where that is the first, or where there is one.
 */
export function laterStamp(guess: StampGuess, lines: readonly string[]): StampGuess | null {
  if (guess.at !== 'start') return null;
  const [, shape] = /^[^{]*(\{.*\})[^}]*$/.exec(guess.pattern) ?? [];
  if (shape === undefined || !/\{(?:hour|epoch|julian)/.test(shape)) return null;
  const first = new StampPattern(guess.pattern);
  const connectors = new Map<string, number>();
  for (const line of lines) {
    const bytes = Buffer.from(line.slice(0, 400));
    const stamp = newStamp();
    if (!first.readAt(bytes, 0, bytes.length, stamp)) continue;
    const rest = bytes.subarray(stamp.end).toString('utf8');
    const next = stampsIn(rest).find(({ pattern, start }) => pattern === shape && start <= BETWEEN_STAMPS);
    if (next !== undefined) increment(connectors, rest.slice(0, next.start));
  }
  const [connector, count] = [...connectors].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  if (count < 0.6 * guess.coverage * lines.length) return null;
  const source = `${guess.pattern}${escapeBraces(connector)}${shape}`;
  if (source.length > 200) return null;
  const proof = proofOf(new StampPattern(source), 'start', lines);
  return stepsBack(new StampPattern(source), lines) < stepsBack(first, lines)
    ? { ...guess, pattern: source, coverage: proof.coverage, forward: proof.forward }
    : null;
}

/** How often the readings of a pattern go back, however little. */
function stepsBack(pattern: StampPattern, lines: readonly string[]): number {
  const stamp = newStamp();
  let lastMs = NaN;
  let back = 0;
  for (const line of lines) {
    const bytes = Buffer.from(line.slice(0, 400));
    if (!pattern.readAt(bytes, 0, bytes.length, stamp)) continue;
    if (stamp.ms < lastMs && lastMs - stamp.ms < 43_200_000) back++;
    lastMs = stamp.ms;
  }
  return back;
}

/** What stands for the second stamp of a line that has none: dots, dashes, or the like. */
const NONE = /^[\s]{0,3}[.·_~?*x–—-]{1,30}(?=\s|$|[|;,/])/u;
const SHARE = 0.4;

/**
 * Counts in pairs, `0042/0310`: the mark between them belongs to the stamp, so that the second is a value of the line.
 * The guess as it is where most lines hold one count.
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
