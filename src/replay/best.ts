/**
 * The best combination of what-ifs within the limits: greedily the largest gain first, then the largest in addition to
 * it, then each part is compared with its alternatives, until nothing gains another minute.
 */
import type { WhatIf } from '../model/index.js';
import type { Comparison } from './compare.js';
import type { Course } from './course.js';
import { usualMsOf } from './exposure-settings.js';
import { boundsOf, needsDarks } from './limits.js';
import type { Setting } from './settings.js';
import type { Question } from './question.js';

/** Minimum gain of a part, ms. */
const WORTH_MS = 60_000;
/** Minimum additional gain of new hardware over free changes, ms. */
const HANDS_ON_MS = 300_000;
/** Minimum additional gain of a dark library of a new length, ms. */
const DARKS_MS = 300_000;
/** Additional minimum if no other train uses that length: one more to maintain. */
const ODD_LENGTH_MS = 300_000;
/** Minimum additional gain of doubling or halving the exposure, ms. */
const DOUBLING_MS = 300_000;
/** Number of runs for choosing parts; the combination itself is measured with all. */
const CHOOSING_RUNS = 5;
/** Number of rounds in which parts are exchanged. */
const ROUNDS = 2;

/** A set of what-ifs: its gain minus its price. */
interface Choice {
  readonly parts: readonly Question[];
  readonly worthMs: number;
}

/**
 * Selects the parts of the best combination; empty when nothing gains a minute.
 *
 * @param answers each question's own answer
 */
export function bestParts(
  course: Course,
  answers: ReadonlyMap<Question, WhatIf>,
  comparison: Comparison,
): readonly Question[] {
  const open = [...answers]
    .filter(([q, w]) => q.apart !== true && w.outside.length === 0 && w.gain.meanMs > -WORTH_MS)
    .map(([q]) => q);
  const assess = chooser(course, answers, comparison);
  let best: Choice = { parts: [], worthMs: 0 };
  const improve = (candidates: readonly (readonly Question[])[]): boolean => {
    const before = best;
    for (const parts of candidates) {
      const worthMs = assess(parts);
      const leastMs = parts.length > before.parts.length ? before.worthMs + WORTH_MS : before.worthMs;
      if (worthMs > Math.max(best.worthMs, leastMs)) best = { parts, worthMs };
    }
    return best !== before;
  };
  const without = (question: Question): Question[] =>
    best.parts.filter((c) => c !== question && !collide(c.settings, question.settings));
  const added = (): Question[][] =>
    open.flatMap((q) => (best.parts.includes(q) || without(q).length < best.parts.length ? [] : [[...best.parts, q]]));
  while (improve(added())) {}
  // A part that was best alone may prevent a better pair.
  for (let round = 0; round < ROUNDS; round++) {
    const exchanged = open.filter((q) => !best.parts.includes(q)).map((q) => [...without(q), q]);
    if (!improve(exchanged)) break;
    while (improve(added())) {}
  }
  return best.parts;
}

/** Measures combinations, cached: the single answer if there is one, −∞ outside the limits. */
function chooser(
  course: Course,
  answers: ReadonlyMap<Question, WhatIf>,
  comparison: Comparison,
): (parts: readonly Question[]) => number {
  const known = new Map<string, number>();
  return (parts) => {
    const key = parts
      .map((p) => p.id)
      .sort()
      .join(' ');
    const before = known.get(key);
    if (before !== undefined) return before;
    const [only] = parts;
    const alone = parts.length === 1 && only ? answers.get(only) : undefined;
    const settings = settingsOf(parts);
    const measured = alone ?? comparison.measure(settings, CHOOSING_RUNS);
    const { outside } = boundsOf(course, settings, measured.outcome.places, comparison.baseline.places);
    const worthMs = outside.length > 0 ? -Infinity : measured.gain.meanMs - priceMs(course, parts);
    known.set(key, worthMs);
    return worthMs;
  };
}

/** Costs of changes besides minutes: of two with similar gain, the smaller change is taken. */
function priceMs(course: Course, parts: readonly Question[]): number {
  return parts.reduce(
    (all, { settings, handsOn }) =>
      all + (handsOn ? HANDS_ON_MS : 0) + settings.reduce((sum, s) => sum + exposurePriceMs(course, s), 0),
    0,
  );
}

function exposurePriceMs({ trains }: Course, setting: Setting): number {
  if (setting.key !== 'exposure') return 0;
  const { seconds } = setting;
  const own = trains.find((t) => t.id === setting.train);
  if (!own) return 0;
  const ms = seconds * 1000;
  // A longer sub required by the sky costs nothing.
  const nowMs = usualMsOf(own, setting.filter);
  const isAsked = own.longerUpToMs !== null && ms > nowMs && ms <= own.longerUpToMs;
  const changeMs = isAsked ? 0 : DOUBLING_MS * Math.abs(Math.log2(ms / nowMs));
  const isOdd = trains.every((t) => needsDarks(t, seconds));
  return changeMs + (needsDarks(own, seconds) ? DARKS_MS : 0) + (isOdd ? ODD_LENGTH_MS : 0);
}

/**
 * The settings of several what-ifs, ordered so that none overrides another: the leading train is set before the dither
 * rate.
 */
export function settingsOf(questions: readonly Question[]): Setting[] {
  const all = questions.flatMap((q) => q.settings);
  return [...all.filter((s) => s.key === 'dither-lead'), ...all.filter((s) => s.key !== 'dither-lead')];
}

/** Whether two what-ifs set the same rule, or one makes the other ineffective. */
function collide(a: readonly Setting[], b: readonly Setting[]): boolean {
  const slot = (s: Setting): string =>
    s.key === 'focus' || s.key === 'guiding'
      ? 'focus'
      : 'train' in s && s.key !== 'dither-lead'
        ? `${s.key}.${s.train ?? ''}`
        : s.key;
  return a.some((x) => b.some((y) => slot(x) === slot(y)));
}
