/**
 * The offset of one clock relative to another as a probability over −2 h … +2 h: the most probable one with its
 * uncertainty, and whether another one cannot be excluded.
 */
import { anchoredMs } from './anchored.js';
import { itemAt } from '../../model/index.js';
import { HABITS, leeway, logLikelihoods, runningSums, type ClockEvidence, type Habit } from './likelihood.js';
import { sharedOffset, withShared } from './shared-events.js';

/** What the evidence implies for an offset. */
export interface OffsetEstimate {
  /** How far the clock is ahead of the reference, ms. */
  readonly aheadMs: number;
  readonly uncertaintyMs: number;
  /** Probability of all other offsets together, 0…1. */
  readonly otherShare: number;
  /** Probability that the train ignores the reference, 0…1: part of that. */
  readonly unrelatedShare: number;
  /** The most probable other offset, if not negligible. */
  readonly secondMs?: number;
  /** Number of pauses and shared events that contributed. */
  readonly witnesses: number;
}

/** An offset is known if all others together are less probable than this. */
export const OTHER_SHARE_LIMIT = 0.05;

/** Another offset is named if it alone is this probable. */
const SECOND_SHARE = 0.01;

/** Range of offsets searched: two hours to both sides plus a few minutes, ms. */
export const REACH_MS = 2 * 3600_000 + 600_000;
const STEP_MS = 2000;
const FINE_STEP_MS = 100;
/** Places at which the coarse search is refined. */
const PLACES = 40;
/** At so many of these, the steps on either side are refined, too. */
const BESIDE = 3;
/** Offsets this close to the best one are the same answer, ms. */
const SAME_MS = 4000;
/** A priori: how much more probable agreement, or a difference of half hours, is than any other second. */
const AGREEING_WEIGHT = 300;
const ZONE_WEIGHT = 10;
const HALF_HOUR_MS = 1800_000;
/** A priori probability that the train ignores the reference. */
const UNRELATED_SHARE = 0.1;
/** More pauses than this only cost time. */
const MOST_PAUSES = 80;
const COARSE_HABIT: Habit = { keeping: 0.9, delayMs: 4000 };
/** Programs' own delays, within which agreeing clocks are indistinguishable from nearly agreeing ones, ms. */
const OWN_DELAY_MS = 3000;
/** A begin this soon after the mount's logged rest depends on it, ms. */
const PINNED_MS = 300;
/** The smallest stated uncertainty, ms: the time programs take to write a line. */
const FLOOR_MS = 100;
/**
 * A tolerance interval within which all values are equally probable, as a standard uncertainty: its full width over √12
 * (JCGM 100:2008, 4.3.7).
 */
const STANDARD_OF_WIDTH = 1 / Math.sqrt(12);

/** Offsets over the whole range, and how well the pauses fit each. */
export interface CoarseSearch {
  readonly offsetsMs: readonly number[];
  /** By the first pauses alone: none, one, two… */
  readonly sums: readonly Float64Array[];
}

const WHOLE_REACH_MS: readonly number[] = steps(-REACH_MS, REACH_MS, STEP_MS);

/** Searches the whole range with one habit for all. */
export function coarseSearch(thinned: ClockEvidence): CoarseSearch {
  return { offsetsMs: WHOLE_REACH_MS, sums: runningSums(thinned, WHOLE_REACH_MS, COARSE_HABIT) };
}

/** Offsets from one to another, inclusive. */
export function steps(fromMs: number, toMs: number, stepMs: number): number[] {
  const offsetsMs: number[] = [];
  const count = Math.floor((toMs - fromMs) / stepMs) + 1;
  for (let i = 0; i < count; i++) offsetsMs.push(fromMs + i * stepMs);
  return offsetsMs;
}

/**
 * Estimates an offset; `null` without evidence.
 *
 * @param thinned the informative part of the evidence, and its coarse search
 */
export function estimateOffset(
  evidence: ClockEvidence,
  thinned: ClockEvidence,
  coarse: CoarseSearch,
): OffsetEstimate | null {
  const witnesses = thinned.pauses.length + thinned.shared.reduce((n, s) => n + s.otherMs.length, 0);
  if (witnesses === 0 || thinned.shutters.length === 0) return null;
  const points = search(thinned, coarse);
  const flat = UNRELATED_SHARE / (1 - UNRELATED_SHARE);
  const peak = points.reduce((a, b) => (b.logDensity > a.logDensity ? b : a));
  // Everything relative to the peak, to prevent overflow of the exponentials.
  const weighed = points.map(({ offsetMs, widthMs, logDensity }) => ({
    offsetMs,
    mass: Math.exp(logDensity - peak.logDensity) * widthMs,
  }));
  const massOf = (some: readonly Mass[], from = 0): number => some.reduce((sum, { mass }) => sum + mass, from);
  const own = weighed.filter((p) => Math.abs(p.offsetMs - peak.offsetMs) <= SAME_MS);
  const ownMass = massOf(own);
  const unrelated = flat * 2 * REACH_MS * Math.exp(-peak.logDensity);
  const others = weighed.filter((p) => Math.abs(p.offsetMs - peak.offsetMs) > SAME_MS);
  const otherMass = massOf(others, unrelated);
  const otherShare = otherMass / (ownMass + otherMass);
  const second = others.length > 0 ? others.reduce((a, b) => (b.mass > a.mass ? b : a)) : undefined;
  const near = (to: Mass): number =>
    massOf(others.filter((p) => Math.abs(p.offsetMs - to.offsetMs) <= SAME_MS)) / (ownMass + otherMass);
  const mean = own.reduce((sum, p) => sum + p.offsetMs * p.mass, 0) / ownMass;
  const spreadMs = Math.sqrt(own.reduce((sum, p) => sum + (p.offsetMs - mean) ** 2 * p.mass, 0) / ownMass);
  return {
    ...settled(evidence, mean, spreadMs),
    otherShare,
    unrelatedShare: unrelated / (ownMass + otherMass),
    // If everything is slightly probable, no other offset deserves to be named.
    secondMs: second && near(second) >= SECOND_SHARE ? second.offsetMs : undefined,
    witnesses,
  };
}

/** Limited to what is informative. */
export function thin(evidence: ClockEvidence): ClockEvidence {
  return {
    ...evidence,
    pauses: spread(evidence.pauses, MOST_PAUSES),
    shared: evidence.shared.map((s) => ({ ...s, otherMs: spread(s.otherMs, MOST_PAUSES) })),
  };
}

/** Within what the evidence leaves open, clocks that agree are assumed to agree. */
function settled(evidence: ClockEvidence, meanMs: number, spreadMs: number) {
  const { below, above } = leeway(evidence, meanMs, OWN_DELAY_MS);
  const slackMs = FLOOR_MS + 2 * spreadMs;
  const agreeing =
    evidence.favouredMs.find((ms) => meanMs - below - slackMs <= ms && meanMs + above + slackMs >= ms) ??
    (evidence.shared.length === 0 ? anchoredMs(evidence, meanMs) : undefined);
  // The search's steps blur what the earliest begin, or events that both wrote down, determine to the millisecond.
  const aheadMs = sharedOffset(evidence.shared, meanMs) ?? (above <= PINNED_MS ? meanMs + above : meanMs);
  return {
    aheadMs: agreeing ?? Math.round(aheadMs),
    uncertaintyMs: Math.round(Math.max(FLOOR_MS, Math.hypot(spreadMs, (below + above) * STANDARD_OF_WIDTH))),
  };
}

interface Point {
  readonly offsetMs: number;
  readonly widthMs: number;
  readonly logDensity: number;
}

/** A point and its probability, against that of the peak. */
interface Mass {
  readonly offsetMs: number;
  readonly mass: number;
}

function search(evidence: ClockEvidence, { offsetsMs, sums }: CoarseSearch): Point[] {
  const values = itemAt(withShared(evidence.shared, offsetsMs, [itemAt(sums, sums.length - 1)]), 0);
  const places = largest(values, PLACES).map((k) => itemAt(offsetsMs, k));
  const refined = new Set(places);
  // A sharp peak between two steps is in the other one: of equal peaks it must not be the agreeing one that is missed.
  for (const ms of [...evidence.favouredMs, ...places.slice(0, BESIDE)]) {
    const step = Math.round(ms / STEP_MS) * STEP_MS;
    for (const beside of [-STEP_MS, 0, STEP_MS]) refined.add(step + beside);
  }
  const fine = offsetsMs.filter((ms) => refined.has(ms)).flatMap(stepsAbout);
  const ofFine = overHabits(evidence, fine);
  const prior = priorOf(evidence);
  const point = (offsetMs: number, widthMs: number, value: number): Point => ({
    offsetMs,
    widthMs,
    logDensity: value + prior(offsetMs),
  });
  const points: Point[] = [];
  let next = 0;
  for (let k = 0; k < offsetsMs.length; k++) {
    const offsetMs = offsetsMs[k]!;
    if (refined.has(offsetMs)) {
      const end = next + STEP_MS / FINE_STEP_MS;
      for (; next < end; next++) points.push(point(itemAt(fine, next), FINE_STEP_MS, itemAt(ofFine, next)));
    } else points.push(point(offsetMs, STEP_MS, itemAt(values, k)));
  }
  return points;
}

/** Positions of the largest values; of equals those that come first. */
function largest(values: Float64Array, most: number): number[] {
  const places: number[] = [];
  for (let k = 0; k < values.length; k++) {
    const value = values[k]!;
    if (places.length === most && value <= itemAt(values, itemAt(places, most - 1))) continue;
    let at = places.length;
    while (at > 0 && itemAt(values, itemAt(places, at - 1)) < value) at--;
    places.splice(at, 0, k);
    if (places.length > most) places.pop();
  }
  return places;
}

/** The fine steps that replace a coarse one. */
function stepsAbout(offsetMs: number): number[] {
  return steps(offsetMs - STEP_MS / 2, offsetMs + STEP_MS / 2 - FINE_STEP_MS, FINE_STEP_MS);
}

/** Log-likelihood ratios of offsets, marginalised over the habits. */
function overHabits(evidence: ClockEvidence, offsetsMs: readonly number[]): Float64Array {
  const each = logLikelihoods(evidence, offsetsMs, HABITS);
  const sums = new Float64Array(offsetsMs.length);
  for (let k = 0; k < sums.length; k++) {
    let top = -Infinity;
    for (const ofHabit of each) top = Math.max(top, ofHabit[k]!);
    let sum = 0;
    for (const ofHabit of each) sum += Math.exp(ofHabit[k]! - top);
    sums[k] = top + Math.log(sum / each.length);
  }
  return sums;
}

/** The prior of an offset, as a logarithm. */
function priorOf({ favouredMs }: ClockEvidence): (offsetMs: number) => number {
  const [agreeing, zone] = [Math.log(AGREEING_WEIGHT), Math.log(ZONE_WEIGHT)];
  return (offsetMs) => {
    if (favouredMs.some((ms) => Math.abs(offsetMs - ms) <= 2000)) return agreeing;
    const zoneMs = Math.round(offsetMs / HALF_HOUR_MS) * HALF_HOUR_MS;
    return Math.abs(offsetMs - zoneMs) <= 2000 ? zone : 0;
  };
}

/** At most `most` items, spread evenly. */
function spread<T>(items: readonly T[], most: number): readonly T[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, i) => items[Math.floor((i * items.length) / most)]).filter(
    (x) => x !== undefined,
  );
}
