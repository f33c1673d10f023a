/**
 * The offset of one clock against another as a probability over −2 h … +2 h: the most probable one with its
 * uncertainty, and whether another one cannot be excluded.
 */
import { anchoredMs } from './anchored.js';
import { itemAt } from '../../model/index.js';
import { HABITS, leeway, logLikelihoods, runningSums, type ClockEvidence, type Habit } from './likelihood.js';
import { sharedOffset, withShared } from './shared-events.js';

/** What the evidence says of an offset. */
export interface OffsetEstimate {
  /** How far the clock is ahead of the reference, ms. */
  readonly aheadMs: number;
  readonly uncertaintyMs: number;
  /** Probability of every other offset together, 0…1. */
  readonly otherShare: number;
  /** Probability that the train keeps to nothing that the reference tells, 0…1: part of that. */
  readonly unrelatedShare: number;
  /** The most probable other offset, where it is not negligible. */
  readonly secondMs?: number;
  /** Pauses and shared events that spoke. */
  readonly witnesses: number;
}

/** An offset is known when every other one together is less probable than this. */
export const OTHER_SHARE_LIMIT = 0.05;

/** Another offset is named when it alone is this probable. */
const SECOND_SHARE = 0.01;

/** Offsets looked at: two hours to both sides and some minutes, ms. */
export const REACH_MS = 2 * 3600_000 + 600_000;
const STEP_MS = 2000;
const FINE_STEP_MS = 100;
/** Places about which the coarse search is refined. */
const PLACES = 40;
/** Offsets this near to the best one are the same answer, ms. */
const SAME_MS = 4000;
/** Beforehand: how much more probable than any other second clocks are that agree, or differ by half hours. */
const AGREEING_WEIGHT = 300;
const ZONE_WEIGHT = 10;
const HALF_HOUR_MS = 1800_000;
/** Probability beforehand that the train keeps to nothing that the reference tells. */
const UNRELATED_SHARE = 0.1;
/** More pauses than this add nothing but time. */
const MOST_PAUSES = 80;
const COARSE_HABIT: Habit = { keeping: 0.9, delayMs: 4000 };
/** Programs' own delays, within which clocks that agree cannot be told from clocks that nearly do, ms. */
const OWN_DELAY_MS = 3000;
/** A beginning this soon after the mount's rest began on its word, ms. */
const PINNED_MS = 300;
/** The least uncertainty stated, ms: what programs take to write a line. */
const FLOOR_MS = 100;
/**
 * A leeway within which nothing is more probable than anything else, as a standard uncertainty: its whole width over
 * √12 (JCGM 100:2008, 4.3.7).
 */
const STANDARD_OF_WIDTH = 1 / Math.sqrt(12);

/** Offsets over the whole reach, and how well the pauses fit each. */
export interface CoarseSearch {
  readonly offsetsMs: readonly number[];
  /** By the first pauses alone: none, one, two… */
  readonly sums: readonly Float64Array[];
}

const WHOLE_REACH_MS: readonly number[] = steps(-REACH_MS, REACH_MS, STEP_MS);

/** Looks at the whole reach with one habit for all. */
export function coarseSearch(thinned: ClockEvidence): CoarseSearch {
  return { offsetsMs: WHOLE_REACH_MS, sums: runningSums(thinned, WHOLE_REACH_MS, COARSE_HABIT) };
}

/** Offsets from one to another, both among them. */
export function steps(fromMs: number, toMs: number, stepMs: number): number[] {
  const offsetsMs: number[] = [];
  const count = Math.floor((toMs - fromMs) / stepMs) + 1;
  for (let i = 0; i < count; i++) offsetsMs.push(fromMs + i * stepMs);
  return offsetsMs;
}

/**
 * Estimates an offset; `null` where nothing speaks for any.
 *
 * @param thinned no more of the evidence than adds something, and what a coarse search of it found
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
  // Everything relative to the peak, lest the exponentials overflow.
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
    // Where everything is a little probable, no other offset deserves to be named.
    secondMs: second && near(second) >= SECOND_SHARE ? second.offsetMs : undefined,
    witnesses,
  };
}

/** No more of it than adds something. */
export function thin(evidence: ClockEvidence): ClockEvidence {
  return {
    ...evidence,
    pauses: spread(evidence.pauses, MOST_PAUSES),
    shared: evidence.shared.map((s) => ({ ...s, otherMs: spread(s.otherMs, MOST_PAUSES) })),
  };
}

/** Within what the evidence leaves open, clocks that agree are taken to agree. */
function settled(evidence: ClockEvidence, meanMs: number, spreadMs: number) {
  const { below, above } = leeway(evidence, meanMs, OWN_DELAY_MS);
  const slackMs = FLOOR_MS + 2 * spreadMs;
  const agreeing =
    evidence.favouredMs.find((ms) => meanMs - below - slackMs <= ms && meanMs + above + slackMs >= ms) ??
    (evidence.shared.length === 0 ? anchoredMs(evidence, meanMs) : undefined);
  // The search's steps blur what the earliest beginning, or events that both wrote down, tell to the millisecond.
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
  const refined = new Set(largest(values, PLACES).map((k) => itemAt(offsetsMs, k)));
  for (const ms of evidence.favouredMs) refined.add(Math.round(ms / STEP_MS) * STEP_MS);
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

/** Where the largest values are, those of equals that come first. */
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

/** The fine steps that take the place of a coarse one. */
function stepsAbout(offsetMs: number): number[] {
  return steps(offsetMs - STEP_MS / 2, offsetMs + STEP_MS / 2 - FINE_STEP_MS, FINE_STEP_MS);
}

/** Log-likelihood ratios of offsets whatever the habit. */
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

/** What an offset has for it beforehand, as a logarithm. */
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
