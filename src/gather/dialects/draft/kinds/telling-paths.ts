import { isTelling, saysMotion } from '../lexicon/said.js';
import type { FieldLine } from './field-line.js';
import { isValue, MAX_DISTINCT, type PathFacts, wordShare } from './message-path.js';

const LEVEL = /^(?:trace|debug|info|information|notice|note|warn|warning|error|err|fatal|critical|[tdiwef])$/i;
/** Records with a state, and different states. */
const MIN_STATES = 10;
const MAX_STATES = 20;
const SELDOM_TWICE = 0.6;

/** However few records have it: a field most of whose values say what becomes of something. */
function saysState({ count, values }: PathFacts): boolean {
  const moving = [...values.keys()].filter(saysMotion).length;
  const figured = [...values.keys()].filter((value) => /\d/.test(value)).length;
  // Sentences with figures in them, each another, are results: `star 3.11 px, position 6494, good`.
  if (figured === values.size && values.size > SELDOM_TWICE * count) return false;
  return count >= MIN_STATES && values.size <= MAX_STATES && moving >= 0.5 * values.size;
}

/** Values of so many records that hardly ever come twice. */
const MIN_REMARKS = 20;

/**
 * Whether a field holds remarks with figures in them, `812 stars, sky at 1040`: nearly each another, but for values
 * such as targets, which rows of another kind have there.
 */
function hasFigures({ values }: PathFacts): boolean {
  const remarks = [...values].filter(([value]) => !isValue(value));
  const count = remarks.reduce((sum, [, rows]) => sum + rows, 0);
  const figured = remarks.filter(([value]) => /\d/.test(value)).length;
  return count >= MIN_REMARKS && remarks.length >= SELDOM_TWICE * count && figured >= SELDOM_TWICE * remarks.length;
}

/** The fields whose values tell what happened. */
export function tellingPaths(facts: readonly PathFacts[], lines: readonly FieldLine[]): string[] {
  const total = lines.length;
  const wordy = facts.filter(
    (one) =>
      wordShare(one) > 0.6 &&
      one.values.size > 1 &&
      one.values.size <= MAX_DISTINCT &&
      ![...one.values.keys()].every((value) => LEVEL.test(value)),
  );
  const repeated = wordy.filter((one) => !hasFigures(one));
  const candidates = repeated.some(({ count }) => count >= total / 2) ? repeated : wordy;
  const widest = Math.max(0, ...candidates.map(({ count }) => count));
  const chosen: string[] = candidates
    .filter(
      (one) =>
        one.count >= widest / 2 || (one.count >= total / 4 && [...one.values.keys()].some(isTelling)) || saysState(one),
    )
    .map(({ path }) => path);
  // Records without any of these: the fields that tell most of them.
  const left = new Set(lines.filter(({ fields }) => !chosen.some((path) => fields.has(path))));
  while (left.size > 0.02 * lines.length) {
    const [next] = candidates
      .filter(({ path }) => !chosen.includes(path))
      .map(({ path }) => ({ path, own: [...left].filter(({ fields }) => fields.has(path)) }))
      .sort((a, b) => b.own.length - a.own.length);
    if (next === undefined || next.own.length === 0) break;
    chosen.push(next.path);
    for (const line of next.own) left.delete(line);
  }
  return chosen;
}
