import { type StampKind, StampPattern, type StampPlace } from '../../time/stamp.js';
import { bareMinutesIn } from './bare-minutes.js';
import { escapeBraces, increment } from './counting.js';
import type { StampGuess } from './guess.js';
import type { FoundStamp } from './shape.js';
import { stampsAtEnd, stampsIn } from './stamp-shapes.js';
import { type Proof, proofOf } from './stamp-proof.js';
import { isWeekday, withWeekdays } from './weekdays.js';

/** Minimum fraction of lines with a stamp of a shape. */
export const MIN_COVERAGE = 0.1;
/** Maximum length of a number before a stamp; longer ones are another stamp. */
const MAX_NUMBERS = 2;
/** Minimum fraction of lines with the same text at a position. */
const NEARLY_ALL = 0.95;
/** Number of shapes tested, at the beginnings and at the ends of lines. */
const MAX_TRIED = 16;

/** The text around the stamps of one shape. */
export interface Surroundings {
  count: number;
  readonly prefixes: Map<string, number>;
  readonly suffixes: Map<string, number>;
}

/** A pattern at a position, and its score on the lines. */
export interface Candidate {
  readonly guess: Omit<StampGuess, 'coverage' | 'forward'>;
  readonly proof: Proof;
  readonly kind: StampKind;
  readonly order: string;
}

/** The shapes that many lines have, most common first, and the text around them. */
export function shapesIn(
  lines: readonly string[],
  hasBase: boolean,
): readonly (readonly [string, StampPlace, Surroundings])[] {
  const inFront = new Map<string, Surroundings>();
  const atEnd = new Map<string, Surroundings>();
  for (const line of lines) {
    note(inFront, line, [...stampsIn(line), ...bareMinutesIn(line)], hasBase);
    note(atEnd, line, stampsAtEnd(line), hasBase);
  }
  const likely = (all: ReadonlyMap<string, Surroundings>): [string, Surroundings][] =>
    [...all]
      .filter(([, { count }]) => count >= Math.max(1, lines.length * MIN_COVERAGE))
      .sort((a, b) => b[1].count - a[1].count)
      .slice(0, MAX_TRIED);
  return [
    ...likely(inFront).map(([shape, around]) => [shape, 'start', around] as const),
    ...likely(atEnd).map(([shape, around]) => [shape, 'end', around] as const),
  ];
}

function note(all: Map<string, Surroundings>, line: string, found: readonly FoundStamp[], hasBase: boolean): void {
  const seen = new Set<string>();
  for (const { pattern, start, end } of found) {
    if (seen.has(pattern) || (!hasBase && pattern.includes('{elapsed'))) continue;
    seen.add(pattern);
    const own = all.get(pattern) ?? { count: 0, prefixes: new Map<string, number>(), suffixes: new Map() };
    all.set(pattern, own);
    own.count++;
    increment(own.prefixes, line.slice(0, start));
    increment(own.suffixes, `${line.slice(0, start)}\0${line.slice(end, end + 1)}`);
  }
}

/** The pattern after the text that usually precedes it, and the pattern anywhere. */
export function inFrontOrAnywhere(shape: string, around: Surroundings, lines: readonly string[]): Candidate[] {
  const prefix = fixedPrefix(around.prefixes, around.count);
  if (prefix !== null) return [candidate(shape, 'start', prefix, suffixAfter(around, null), lines)];
  const [common, count] = [...around.prefixes].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  return [
    candidate(shape, 'anywhere', '', '', lines),
    ...(count >= MIN_COVERAGE * lines.length
      ? [candidate(shape, 'start', withWeekdays(escapeBraces(common)), suffixAfter(around, common), lines)]
      : []),
  ];
}

/** Marks and a short name directly before a stamp at the end of a line: `[`, `@ `, `(t=`. */
const MARKS_BEFORE = /(?:[^\p{L}\d\s]{1,3}|(?<=\s))(?:\p{L}{1,4}\s?[=:+]\s?)?[^\p{L}\d\s]{0,2}\s?$/u;

/** The pattern at the end of the line, between the marks that nearly all lines have there. */
export function atTheEnd(shape: string, around: Surroundings, lines: readonly string[]): Candidate[] {
  const before = new Map<string, number>();
  for (const [text, count] of around.prefixes) {
    const marks = (MARKS_BEFORE.exec(text.slice(-12))?.[0] ?? '').trimStart();
    before.set(marks, (before.get(marks) ?? 0) + count);
  }
  const marks = nearlyAlways(before, around.count) ?? '';
  const rest = new Map<string, number>();
  for (const line of lines) {
    const [tail = ''] = /[^\p{L}\d\s]{0,3}\s*$/u.exec(line) ?? [];
    increment(rest, tail.trim());
  }
  const closing = nearlyAlways(rest, lines.length);
  if (closing === null) return [];
  // A bare number may be anything.
  if (marks === '' && shape === '{elapsed}') return [];
  const source = `${escapeBraces(marks)}${shape}${escapeBraces(closing)}`;
  const pattern = new StampPattern(source);
  return [
    {
      guess: { pattern: source, at: 'end', dayFirstAssumed: false },
      proof: proofOf(pattern, 'end', lines),
      kind: pattern.kind,
      order: shape,
    },
  ];
}

/** The character that always follows the stamp: of those with this text before, or of all. */
function suffixAfter({ suffixes }: Surroundings, prefix: string | null): string {
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

function candidate(shape: string, at: StampPlace, prefix: string, suffix: string, lines: readonly string[]): Candidate {
  // A bracket or delimiter directly after the stamp belongs to it, not to the message. A comma may begin a fraction.
  const closes = at === 'start' && /^[\])}>|;/~\t]$/.test(suffix);
  const source = prefix + shape + (closes ? escapeBraces(suffix) : '');
  const pattern = new StampPattern(source);
  return {
    guess: { pattern: source, at, dayFirstAssumed: false },
    proof: proofOf(pattern, at, lines),
    kind: pattern.kind,
    order: shape,
  };
}

/** The text before the stamp as a pattern: a constant, or a weekday; `null` if it varies. */
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
  // `(12) at 1791918682`: an index before the time.
  const counted = nearlyAlways(numbered, total);
  if (counted?.includes('{number}') && counted.split('{number}').length <= MAX_NUMBERS + 1) return counted;
  // A blank in a pattern is any number of blanks: `<6>[    12.345]`.
  const flush = new Map<string, number>();
  for (const [text, count] of numbered) {
    const form = text.replace(/ +/g, ' ');
    flush.set(form, (flush.get(form) ?? 0) + count);
  }
  const aligned = nearlyAlways(flush, total);
  if (aligned?.split('{number}').length === 2) return aligned;
  const forms = new Map<string, number>();
  for (const [text, count] of prefixes) {
    const form = text.replace(/\p{L}{1,12}/u, '\0');
    forms.set(form, (forms.get(form) ?? 0) + count);
  }
  const words = new Set([...prefixes.keys()].map((text) => /\p{L}{1,12}/u.exec(text)?.[0] ?? ''));
  const form = nearlyAlways(forms, total);
  // Days of the week, or severity levels; any other word is significant.
  return form?.includes('\0') && !/\p{L}/u.test(form) && [...words].every((word) => isWeekday(word) || LEVEL.test(word))
    ? escapeBraces(form).replace('\0', '{weekday}')
    : null;
}

/** Words and letters for severity. */
const LEVEL = /^(?:info\w*|notice|note|warn\w*|debug|trace|verbose|err|error|crit\w*|fatal|[IWEDNTF])$/i;

/** The text at this position in all but a few lines, or `null`. */
function nearlyAlways(counts: ReadonlyMap<string, number>, total: number): string | null {
  const [text, count] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  return count >= total * NEARLY_ALL ? text : null;
}
