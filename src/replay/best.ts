/**
 * The best combination of what-ifs: the one that gains most is taken first, then what gains most beside it, until
 * nothing gains a minute more.
 */
import { groupBy, type WhatIfGroup } from '../model/index.js';
import type { Comparison } from './compare.js';
import type { Course } from './course.js';
import { applySettings, type Setting } from './settings.js';
import type { Question } from './what-ifs.js';

/** A part must gain this much to be worth doing, ms. */
const WORTH_MS = 60_000;
/** New hardware must gain this much more than what costs nothing, ms. */
const HANDS_ON_MS = 300_000;
/** Twice or half the exposure must gain this much more than none of it, ms. */
const DOUBLING_MS = 300_000;
/** A companion starts this long after the pilot at the least, when centring and guiding have proved good. Common practice, no source. */
const LEAST_OFFSET_MIN = 2;
/** Exposures are changed by no more than this factor. */
const EXPOSURE_REACH = 1.5;
/** Runs by which parts are chosen; the combination itself is measured with all. */
const CHOOSING_RUNS = 5;
/** Places a filter's frames should be dithered to, so that what is fixed on the sensor averages out. Common practice, no source. */
const PLACES = 12;
/** Dithering every so many frames is common practice, no source: it is never called too seldom. */
const USUAL_EVERY = 3;

/** What can be done from one night to the next, and does not trade depth for minutes: sub lengths are left out. */
const COMBINED: readonly WhatIfGroup[] = [
  'dither-every',
  'dither-waits',
  'companion-exposure',
  'focus',
  'guiding',
  'start-offset',
  'dither-lead',
];

/**
 * Frames between two dithers beyond which a filter would be dithered to too few places: its fewest frames on the leading
 * train, divided by the places wanted.
 */
export function longestDitherCount({ trains, rules }: Course): number {
  const lead = trains.find((t) => t.id === rules.lead);
  const perFilter = [...groupBy(lead?.blocks ?? [], (b) => `${b.target}/${b.filter}`).values()].map((blocks) =>
    blocks.reduce((n, b) => n + b.frames, 0),
  );
  return Math.max(USUAL_EVERY, rules.ditherEvery ?? 0, Math.floor(Math.min(...perFilter) / PLACES));
}

/**
 * Chooses the parts of the best combination; empty when nothing gains a minute.
 *
 * @param gainOf the gain of each what-if by itself, ms
 */
export function bestParts(
  course: Course,
  questions: readonly Question[],
  gainOf: (question: Question) => number,
  comparison: Comparison,
): Question[] {
  const open = questions.filter((q) => COMBINED.includes(q.group) && isSensible(course, q) && gainOf(q) > -WORTH_MS);
  const chosen: Question[] = [];
  let gainMs = 0;
  for (;;) {
    let best: { question: Question; gainMs: number } | null = null;
    for (const question of open) {
      if (chosen.some((c) => collide(c.settings, question.settings))) continue;
      const together =
        chosen.length === 0
          ? gainOf(question)
          : comparison.measure(applySettings(course, settingsOf([...chosen, question])), CHOOSING_RUNS).gain.meanMs;
      const worthMs = together - priceMs(course, question);
      if (!best || worthMs > best.gainMs) best = { question, gainMs: worthMs };
    }
    if (!best || best.gainMs < gainMs + WORTH_MS) return chosen;
    chosen.push(best.question);
    gainMs = best.gainMs;
  }
}

/** What a change costs beside minutes, in minutes: of two that gain alike, the lesser change is taken. */
function priceMs(course: Course, { settings, handsOn }: Question): number {
  return (
    (handsOn ? HANDS_ON_MS : 0) +
    settings.reduce(
      (sum, s) => sum + (s.key === 'exposure' ? DOUBLING_MS * Math.abs(Math.log2(exposureRatio(course, s))) : 0),
      0,
    )
  );
}

/** The new exposure over the usual one. */
function exposureRatio(course: Course, { train, seconds }: Extract<Setting, { key: 'exposure' }>): number {
  const own = course.trains.find((t) => t.id === train);
  return own ? (seconds * 1000) / own.usualMs : 1;
}

/** Whether a what-if stays within what dithering asks for and near the exposure the sky was found good for. */
function isSensible(course: Course, { settings }: Question): boolean {
  const most = longestDitherCount(course);
  return settings.every((s) => {
    if (s.key === 'dither-every') return (s.frames ?? Infinity) <= most;
    if (s.key === 'start-offset') return s.minutes >= LEAST_OFFSET_MIN;
    return s.key !== 'exposure' || Math.abs(Math.log(exposureRatio(course, s))) <= Math.log(EXPOSURE_REACH);
  });
}

/** The settings of several what-ifs, in an order in which none undoes another: who leads is settled before how often. */
export function settingsOf(questions: readonly Question[]): Setting[] {
  const all = questions.flatMap((q) => q.settings);
  return [...all.filter((s) => s.key === 'dither-lead'), ...all.filter((s) => s.key !== 'dither-lead')];
}

/** Whether two what-ifs set the same thing, or one makes the other idle. */
function collide(a: readonly Setting[], b: readonly Setting[]): boolean {
  const slot = (s: Setting): string =>
    s.key === 'focus' || s.key === 'guiding'
      ? 'focus'
      : 'train' in s && s.key !== 'dither-lead'
        ? `${s.key}.${s.train ?? ''}`
        : s.key;
  return a.some((x) => b.some((y) => slot(x) === slot(y)));
}
