/**
 * Exposures that put companions in step with the leading train: a whole number of theirs fills the time between two
 * dithers. One companion at a time, or all of them, filter by filter.
 */
import { groupBy, itemAt, listed, overlapMs, ownValue, sum } from '../model/index.js';
import type { Block, Course, TrainCourse } from './course.js';
import { exposureSettings, hasOneLength, withOtherLengths } from './exposure-settings.js';
import type { Question } from './question.js';
import type { Setting } from './settings.js';

/** Maximum factor by which a companion's exposure is changed. */
const REACH = 2;
/** A train that waits this long for a dither is ready in time although readouts vary, ms. */
const SLACK_MS = 10_000;
/** Companion exposures offered, closest to its own first. */
const EXPOSURES = 4;
/** A smaller difference from the train's own length does not count, s. */
const OTHER_S = 1.5;

interface Fit {
  readonly count: number;
  readonly seconds: number;
}

const distance = ({ seconds }: Fit, nowMs: number): number => Math.abs(Math.log((seconds * 1000) / nowMs));

/** A length rounded to a usual value, s. */
function settable(seconds: number, round: (value: number) => number): number {
  const step = seconds < 60 ? 1 : 5;
  return round(seconds / step) * step;
}

/** Lengths of which a whole number fills the time of the lead's frames of a length, fewest first. */
function fits({ rules, unseenPatience }: Course, train: TrainCourse, lead: TrainCourse, leadMs: number): Fit[] {
  const every = rules.ditherEvery ?? 1;
  const spanMs = every * (leadMs + lead.turnarounds.typicalMs);
  const patienceMs =
    ownValue(rules.ownCount, train.id) !== undefined
      ? Infinity
      : unseenPatience?.includes(train.id) === true
        ? 0
        : (ownValue(rules.patienceMs, train.id) ?? 0);
  return Array.from({ length: 4 * every }, (_, i): Fit => {
    const count = i + 1;
    if (count === every) return { count, seconds: leadMs / 1000 };
    const exact = (spanMs / count - train.turnarounds.typicalMs) / 1000;
    // A train that does not wait would begin another exposure just before the dither: it had better be late.
    if (patienceMs < SLACK_MS) return { count, seconds: settable(Math.ceil(exact) + 1, Math.ceil) };
    const near = settable(exact, Math.round);
    const isEarly = 1000 * count * (exact - near) > patienceMs / 2;
    return { count, seconds: isEarly ? settable(exact, Math.ceil) : near };
  }).filter(({ seconds }) => seconds >= 1);
}

/** Exposures for which a companion's frames fill the time between two dithers. */
export function companionExposures(course: Course): Question[] {
  const { rules, trains } = course;
  const lead = trains.find((t) => t.id === rules.lead);
  if (!lead || !hasOneLength(lead)) return [];
  return trains.flatMap((train): Question[] => {
    if (train === lead || !hasOneLength(train)) return [];
    return fits(course, train, lead, lead.usualMs)
      .filter((fit) => distance(fit, train.usualMs) <= Math.log(REACH) && isOther(fit, train.usualMs))
      .sort((a, b) => distance(a, train.usualMs) - distance(b, train.usualMs))
      .slice(0, EXPOSURES)
      .map(({ count, seconds }) => ({
        id: `companion-exposure-${train.id}-${seconds}`,
        group: 'companion-exposure' as const,
        title:
          count === (rules.ditherEvery ?? 1)
            ? `${train.id} exposes ${seconds} s, as ${lead.id} does`
            : `${train.id} exposes ${seconds} s, ${count} to ${lead.id}’s ${rules.ditherEvery ?? 1}`,
        short: `${train.id} ${seconds} s`,
        settings: exposureSettings(train, seconds),
      }))
      .map((question) => withOtherLengths(question, train));
  });
}

const isOther = ({ seconds }: Fit, nowMs: number): boolean => Math.abs(seconds - nowMs / 1000) >= OTHER_S;

/**
 * All companions in step simultaneously, filter by filter: asked if one at a time would leave a train out of step, or
 * if a train has filters of several lengths.
 */
export function companionsInStep(course: Course): Question[] {
  const { rules, trains } = course;
  const lead = trains.find((t) => t.id === rules.lead);
  if (!lead || rules.ditherEvery === null) return [];
  const stretches = stretchesOf(lead);
  const changes = trains.flatMap((train): Change[] => {
    const lengths = train === lead ? [] : lengthsFor(course, train, lead, stretches);
    return lengths.length === 0 ? [] : [{ train, lengths }];
  });
  const isSingle = changes.every(({ train }) => hasOneLength(train)) && hasOneLength(lead);
  if (changes.length === 0 || (isSingle && changes.length < 2)) return [];
  return [
    {
      id: 'companions-in-step',
      group: 'companion-exposure',
      title: `${changes.map(sentenceOf).join('; ')}, in step with ${lead.id}`,
      short: 'in step',
      settings: changes.flatMap(settingsOf),
    },
  ];
}

/** Another length of the subs through a filter; without a filter, of all of a train. */
interface Length {
  readonly filter: string | undefined;
  readonly seconds: number;
}

interface Change {
  readonly train: TrainCourse;
  readonly lengths: readonly Length[];
}

interface Stretch {
  readonly startMs: number;
  readonly endMs: number;
  readonly block: Block;
}

/** When a train's blocks were taken, assuming its pauses were spread evenly over its night. */
function stretchesOf({ blocks, startMs, endMs, turnarounds }: TrainCourse): Stretch[] {
  const lengths = blocks.map(({ frames, exposureMs }) => frames * (exposureMs + turnarounds.typicalMs));
  const scale = (endMs - startMs) / Math.max(1, sum(lengths));
  let atMs = startMs;
  return blocks.map((block, i) => {
    const fromMs = atMs;
    atMs += itemAt(lengths, i) * scale;
    return { startMs: fromMs, endMs: atMs, block };
  });
}

/** The lengths that put a train in step, each filter with the lead's subs that were taken meanwhile. */
function lengthsFor(course: Course, train: TrainCourse, lead: TrainCourse, leads: readonly Stretch[]): Length[] {
  const byFilter = [...groupBy(stretchesOf(train), ({ block }) => block.filter)].map(([filter, own]) => {
    const nowMs = itemAt(own, 0).block.exposureMs;
    const meanwhile = leads.map((one) => ({
      ms: sum(own.map((o) => overlapMs(o, one))),
      leadMs: one.block.exposureMs,
    }));
    const [most] = [...groupBy(meanwhile, ({ leadMs }) => leadMs)]
      .map(([leadMs, all]) => ({ leadMs, ms: sum(all.map(({ ms }) => ms)) }))
      .sort((a, b) => b.ms - a.ms);
    const near = fits(course, train, lead, most?.leadMs ?? lead.usualMs).filter(
      (fit) => distance(fit, nowMs) <= Math.log(REACH),
    );
    return { filter, nowMs, near, isOne: own.every(({ block }) => block.exposureMs === nowMs) };
  });
  if (byFilter.some(({ isOne, near }) => !isOne || near.length === 0)) return [];
  // A train that counts its own frames counts them across filters.
  const counts = [...new Set(byFilter.flatMap(({ near }) => near.map(({ count }) => count)))];
  const closest = (near: readonly Fit[], nowMs: number): Fit | undefined =>
    [...near].sort((a, b) => distance(a, nowMs) - distance(b, nowMs))[0];
  const chosen =
    ownValue(course.rules.ownCount, train.id) === undefined
      ? byFilter.map(({ near, nowMs }) => closest(near, nowMs))
      : counts
          .map((count) => byFilter.map(({ near }) => near.find((fit) => fit.count === count)))
          .filter((all) => all.every((fit) => fit !== undefined))
          .sort((a, b) => farOff(a) - farOff(b))[0];
  function farOff(all: readonly (Fit | undefined)[]): number {
    return sum(all.map((fit, i) => (fit ? distance(fit, itemAt(byFilter, i).nowMs) : Infinity)));
  }
  const lengths = byFilter.flatMap(({ filter, nowMs }, i): Length[] => {
    const fit = chosen?.[i];
    return fit && isOther(fit, nowMs) ? [{ filter, seconds: fit.seconds }] : [];
  });
  // A common length for all filters needs no filter name.
  const alike = lengths.length === byFilter.length && new Set(lengths.map(({ seconds }) => seconds)).size === 1;
  return alike && lengths[0] ? [{ filter: undefined, seconds: lengths[0].seconds }] : lengths;
}

function settingsOf({ train, lengths }: Change): Setting[] {
  return lengths.map(({ filter, seconds }) => ({
    key: 'exposure',
    train: train.id,
    ...(filter === undefined ? {} : { filter }),
    seconds,
  }));
}

/** `wren exposes 230 s in OIII and 95 s in R`. */
function sentenceOf({ train, lengths }: Change): string {
  const each = lengths.map(({ filter, seconds }) => `${seconds} s${filter === undefined ? '' : ` in ${filter}`}`);
  return `${train.id} exposes ${listed(each)}`;
}
