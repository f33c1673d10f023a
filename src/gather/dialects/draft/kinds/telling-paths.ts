import { increment } from '../../../../model/index.js';
import { isTelling, saysMotion } from '../lexicon/said.js';
import type { FieldLine } from './field-line.js';
import { isValue, MAX_DISTINCT, type PathFacts, wordShare } from './message-path.js';

const LEVEL = /^(?:trace|debug|info|information|notice|note|warn|warning|error|err|fatal|critical|[tdiwef])$/i;
/** Minimum number of records with a state, and maximum number of states. */
const MIN_STATES = 10;
const MAX_STATES = 20;
const SELDOM_TWICE = 0.6;

/** Regardless of coverage: a field most of whose values say what happens. */
function saysState({ count, values }: PathFacts): boolean {
  const moving = [...values.keys()].filter(saysMotion).length;
  const figured = [...values.keys()].filter((value) => /\d/.test(value)).length;
  // Distinct sentences with figures are results: `star 3.11 px, position 6494, good`.
  if (figured === values.size && values.size > SELDOM_TWICE * count) return false;
  return count >= MIN_STATES && values.size <= MAX_STATES && moving >= 0.5 * values.size;
}

/** Values in this many records that hardly ever repeat. */
const MIN_REMARKS = 20;

/**
 * Whether a field holds remarks with figures, `812 stars, sky at 1040`: nearly all distinct, except for values such as
 * targets in rows of another kind.
 */
function hasFigures({ values }: PathFacts): boolean {
  const remarks = [...values].filter(([value]) => !isValue(value));
  const count = remarks.reduce((sum, [, rows]) => sum + rows, 0);
  const figured = remarks.filter(([value]) => /\d/.test(value)).length;
  return count >= MIN_REMARKS && remarks.length >= SELDOM_TWICE * count && figured >= SELDOM_TWICE * remarks.length;
}

/** Minimum number of rows with the other field's name, and fraction in which this one has the usual wording for it. */
const SAYS_WHAT = 0.95;
const ALIKE = 0.9;
const MIN_FIGURED = 6;
const FIGURED = 0.5;
const VALUE = /\p{Lu}{1,4} ?\d+|[-+−]?\d+(?:[.,]\d+)?/gu;

/**
 * Whether a field only holds the figures for another field's few names: the same words for each name, `error 7.7 px`
 * with `centred`.
 */
function isMeasured(own: PathFacts, other: PathFacts, lines: readonly FieldLine[]): boolean {
  const figured = [...own.values.keys()].filter((value) => /\d/.test(value)).length;
  if (figured < Math.max(MIN_FIGURED, FIGURED * own.values.size) || other === own) return false;
  if (other.count < SAYS_WHAT * lines.length || other.values.size > MAX_STATES * 2) return false;
  const shapes = new Map<string, Map<string, number>>();
  for (const { fields } of lines) {
    const value = fields.get(own.path);
    if (value === undefined || value === '') continue;
    const name = fields.get(other.path) ?? '';
    const counts = shapes.get(name) ?? new Map<string, number>();
    shapes.set(name, counts);
    increment(counts, isValue(value) ? '' : value.replace(VALUE, '#'));
  }
  const alike = [...shapes.values()].reduce((sum, counts) => sum + Math.max(...counts.values()), 0);
  return alike >= ALIKE * own.count;
}

/** The fields whose values say what happened. */
export function tellingPaths(facts: readonly PathFacts[], lines: readonly FieldLine[]): string[] {
  const total = lines.length;
  const wordy = facts.filter(
    (one) =>
      wordShare(one) > 0.6 &&
      one.values.size > 1 &&
      one.values.size <= MAX_DISTINCT &&
      ![...one.values.keys()].every((value) => LEVEL.test(value)),
  );
  const repeated = wordy.filter((one) => !hasFigures(one) && !wordy.some((other) => isMeasured(one, other, lines)));
  const candidates = repeated.some(({ count }) => count >= total / 2) ? repeated : wordy;
  const widest = Math.max(0, ...candidates.map(({ count }) => count));
  const chosen: string[] = candidates
    .filter(
      (one) =>
        one.count >= widest / 2 || (one.count >= total / 4 && [...one.values.keys()].some(isTelling)) || saysState(one),
    )
    .map(({ path }) => path);
  // For records without any of these: the fields that most of them have.
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
