import { StampPattern } from '../../time/stamp.js';
import { escapeBraces, increment } from './counting.js';
import type { StampGuess } from './guess.js';
import { proofOf, type Proof } from './stamp-proof.js';
import { stampsIn } from './stamp-shapes.js';
import { beforeSecondCount, laterStamp } from './two-stamps.js';
import { withWeekdays } from './weekdays.js';

/** Patterns that are put to the proof. */
const MAX_TRIED = 16;
const MIN_COVERAGE = 0.1;
/** Numbers in front of a stamp; more of them are another stamp. */
const MAX_NUMBERS = 2;
/** Steps of elapsed times that go forward. */
const MIN_FORWARD = 0.9;
/** A night that the head states begins within this of its first line, and speaks for the order of the date. */
const NEAR_MS = 2 * 86_400_000;
const AS_STATED = 1.1;
const TOO_LONG_MS = 3 * 86_400_000;
/** A reading that holds the date says more than one that does not, and anything more than a bare number. */
const WORTH = {
  epoch: 1.15,
  'date-time': 1.15,
  'month-day-time': 1.08,
  time: 1,
  date: 0,
  'month-day': 0,
  elapsed: 0.7,
} as const;

interface Tally {
  count: number;
  readonly prefixes: Map<string, number>;
  readonly suffixes: Map<string, number>;
}

/**
 * The time pattern that reads the lines of a log best, each candidate tried on the lines themselves: it must read
 * many of them, its times must run forward and fall into plausible years. `null` when none does.
 *
 * @param stated days that the head or the file's name states without any doubt, UTC midnights in ms
 * @param hasBase some line states what elapsed times would count from; without one, no count is taken for a time
 */
export function guessStamp(
  lines: readonly string[],
  hasBase: boolean,
  stated: readonly number[] = [],
): StampGuess | null {
  const tallies = new Map<string, Tally>();
  for (const line of lines) {
    const seen = new Set<string>();
    for (const { pattern, start, end } of stampsIn(line)) {
      if (seen.has(pattern) || (!hasBase && pattern.includes('{elapsed'))) continue;
      seen.add(pattern);
      const tally = tallies.get(pattern) ?? { count: 0, prefixes: new Map(), suffixes: new Map() };
      tallies.set(pattern, tally);
      tally.count++;
      increment(tally.prefixes, line.slice(0, start));
      increment(tally.suffixes, `${line.slice(0, start)}\0${line.slice(end, end + 1)}`);
    }
  }
  const likely = [...tallies]
    .filter(([, { count }]) => count >= Math.max(1, lines.length * MIN_COVERAGE))
    .sort((a, b) => b[1].count - a[1].count)
    .slice(0, MAX_TRIED);
  let best: { guess: StampGuess; score: number; spanMs: number } | null = null;
  for (const [shape, tally] of likely) {
    const orders = ordersOf(shape).flatMap((pattern) => candidates(pattern, tally, lines));
    const valid = new Set(
      orders.filter(({ proof }) => proof.forward > 0.9 && proof.plausible > 0.9).map(({ order }) => order),
    );
    for (const { guess, proof, kind } of orders) {
      // A column of measured values is no clock.
      if (kind === 'elapsed' && proof.forward < MIN_FORWARD) continue;
      const near = stated.some((dayMs) => Math.abs(proof.firstMs - dayMs) < NEAR_MS);
      const score =
        proof.coverage *
        proof.forward ** 3 *
        proof.plausible *
        WORTH[kind] *
        (guess.anywhere ? 0.97 : 1) *
        (near ? AS_STATED : 1);
      const dayFirstAssumed = shape.includes('{a}') && valid.size > 1;
      // Of two orders of a date the one in which the log spans less: nights follow each other by days, not by months.
      const shorter =
        best !== null && Math.abs(score - best.score) < 1e-6 && proof.spanMs > 0 && proof.spanMs < 0.5 * best.spanMs;
      if (best === null || score > best.score + 1e-9 || shorter)
        best = {
          guess: { ...guess, dayFirstAssumed, coverage: proof.coverage, forward: proof.forward },
          score,
          spanMs: proof.spanMs,
        };
    }
  }
  if (best === null || best.score < MIN_COVERAGE / 2) return null;
  const later = laterStamp(best.guess, lines);
  if (later !== null) return later;
  // Counts that would be days as seconds are milliseconds.
  const inMs = best.spanMs > TOO_LONG_MS && best.guess.pattern.includes('{elapsed}');
  const { guess } = best;
  const unit = inMs ? { ...guess, pattern: guess.pattern.replace('{elapsed}', '{elapsed-ms}') } : guess;
  return beforeSecondCount(unit, lines);
}

interface Candidate {
  readonly guess: Omit<StampGuess, 'coverage' | 'forward'>;
  readonly proof: Proof;
  readonly kind: StampPattern['kind'];
  readonly order: string;
}

/** The pattern after the text that mostly stands before it, and the pattern wherever it stands. */
function candidates(shape: string, tally: Tally, lines: readonly string[]): Candidate[] {
  const prefix = fixedPrefix(tally.prefixes, tally.count);
  if (prefix !== null) return [candidate(shape, prefix, suffixAfter(tally, null), lines)];
  const [common, count] = [...tally.prefixes].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  return [
    candidate(shape, null, '', lines),
    ...(count >= MIN_COVERAGE * lines.length
      ? [candidate(shape, withWeekdays(escapeBraces(common)), suffixAfter(tally, common), lines)]
      : []),
  ];
}

/** The character that always follows the stamp: of those with such a text before, or of all. */
function suffixAfter({ suffixes }: Tally, prefix: string | null): string {
  const counts = new Map<string, number>();
  for (const [key, count] of suffixes) {
    const [before = '', suffix = ''] = key.split('\0');
    if (prefix === null || before === prefix) counts.set(suffix, (counts.get(suffix) ?? 0) + count);
  }
  return (
    nearlyAlways(
      counts,
      [...counts.values()].reduce((sum, count) => sum + count, 0),
    ) ?? ''
  );
}

function candidate(shape: string, prefix: string | null, suffix: string, lines: readonly string[]): Candidate {
  // A bracket or a delimiter right after the stamp belongs to it, not to the message. A comma may begin a fraction.
  const closes = prefix !== null && /^[\])}>|;\t]$/.test(suffix);
  const source = (prefix ?? '') + shape + (closes ? escapeBraces(suffix) : '');
  const pattern = new StampPattern(source);
  return {
    guess: { pattern: source, anywhere: prefix === null, dayFirstAssumed: false },
    proof: proofOf(pattern, prefix === null, lines),
    kind: pattern.kind,
    order: shape,
  };
}

/**
 * The orders in which the parts of an undecided date can be read, the likeliest first: digits alone, or set apart by
 * hyphens, mostly begin with the year (as in ISO 8601), those set apart by points or slashes with the day.
 */
function ordersOf(shape: string): string[] {
  const put = (a: string, b: string, c = '{c}'): string => shape.replace('{a}', a).replace('{b}', b).replace('{c}', c);
  if (shape.includes('{c}'))
    return /\{a\}-?\{b\}/.test(shape)
      ? [put('{year2}', '{month}', '{day}'), put('{day}', '{month}', '{year2}'), put('{month}', '{day}', '{year2}')]
      : [put('{day}', '{month}', '{year2}'), put('{year2}', '{month}', '{day}'), put('{month}', '{day}', '{year2}')];
  return shape.includes('{a}') ? [put('{day}', '{month}'), put('{month}', '{day}')] : [shape];
}

/** What stands before the stamp as a pattern: the same text, or a weekday; `null` when it differs. */
function fixedPrefix(prefixes: ReadonlyMap<string, number>, total: number): string | null {
  const named = new Map<string, number>();
  for (const [text, count] of prefixes) {
    const form = withWeekdays(escapeBraces(text));
    named.set(form, (named.get(form) ?? 0) + count);
  }
  const same = nearlyAlways(named, total);
  if (same !== null) return same;
  const numbered = new Map<string, number>();
  for (const [text, count] of named) {
    const form = text.replace(/\d+/g, '{number}');
    numbered.set(form, (numbered.get(form) ?? 0) + count);
  }
  // `(12) at 1791918682`: an index in front of the time.
  const counted = nearlyAlways(numbered, total);
  if (counted?.includes('{number}') && counted.split('{number}').length <= MAX_NUMBERS + 1) return counted;
  const forms = new Map<string, number>();
  for (const [text, count] of prefixes) {
    const form = text.replace(/\p{L}{2,12}/u, '\0');
    forms.set(form, (forms.get(form) ?? 0) + count);
  }
  const words = new Set([...prefixes.keys()].map((text) => /\p{L}{2,12}/u.exec(text)?.[0]));
  const form = nearlyAlways(forms, total);
  // Two or three words over a night: the days of the week.
  return form?.includes('\0') && words.size <= 3 && !/\p{L}/u.test(form)
    ? escapeBraces(form).replace('\0', '{weekday}')
    : null;
}

/** The text that stands there in all but a few lines, or `null`. */
function nearlyAlways(counts: ReadonlyMap<string, number>, total: number): string | null {
  const [text, count] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  return count >= total * 0.95 ? text : null;
}
