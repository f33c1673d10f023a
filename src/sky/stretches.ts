import { interval } from '../model/index.js';
import type { Interval } from '../model/index.js';

/** A quantity at an instant. */
export interface Sample {
  readonly atMs: number;
  readonly value: number;
}

/** A quantity that changes smoothly with time; instants are whole UTC ms. */
export type Quantity = (atMs: number) => number;

/** Accuracy of the search for a turning point, ms; being quadratic there, the value itself is far better. */
const TURN_MS = 1000;
/** Maximum number of samples, however long a span an old record states. */
const MAX_SAMPLES = 20_000;

/**
 * The parts of a span in which a quantity is at or above zero: sorted, disjoint, each edge the very first millisecond
 * of the new state. An edge that is not an end of the span is a zero crossing.
 *
 * The quantity is sampled at the span's ends and every `stepMs` between. A double crossing between two samples is found
 * too if the samples around it show the turn, so the step need only be short compared with the time in which the
 * quantity rises and falls once, not with its shortest excursion.
 */
export function stretchesFromZero(quantity: Quantity, span: Interval, stepMs: number): Interval[] {
  const samples = withHiddenVisits(quantity, sampled(quantity, span, stepMs));
  const stretches: Interval[] = [];
  let startMs: number | null = null;
  let before: Sample | null = null;
  for (const sample of samples) {
    if (before === null) startMs = isUp(sample) ? sample.atMs : null;
    else if (isUp(before) !== isUp(sample)) {
      const edgeMs = passage(quantity, before, sample);
      if (startMs !== null) stretches.push(interval(startMs, edgeMs));
      startMs = startMs === null ? edgeMs : null;
    }
    before = sample;
  }
  if (startMs !== null && startMs < span.endMs) stretches.push(interval(startMs, span.endMs));
  return stretches;
}

/** The lowest value within a span and when it is reached, to about a second, sampled every `stepMs` first. */
export function lowest(quantity: Quantity, span: Interval, stepMs: number): Sample {
  const samples = sampled(quantity, span, stepMs);
  const least = samples.reduce((best, sample) => (sample.value < best.value ? sample : best));
  const fromMs = Math.max(span.startMs, least.atMs - stepMs);
  const toMs = Math.min(span.endMs, least.atMs + stepMs);
  const turn = descend(quantity, fromMs, toMs, -Infinity);
  return turn.value < least.value ? turn : least;
}

function isUp(sample: Sample): boolean {
  return sample.value >= 0;
}

function sampled(quantity: Quantity, span: Interval, stepMs: number): Sample[] {
  const samples: Sample[] = [];
  const step = Math.max(stepMs, Math.ceil((span.endMs - span.startMs) / MAX_SAMPLES));
  for (let atMs = span.startMs; atMs < span.endMs; atMs += step) samples.push({ atMs, value: quantity(atMs) });
  samples.push({ atMs: span.endMs, value: quantity(span.endMs) });
  return samples;
}

/** The samples with an additional one for each turn between them that crosses zero. */
function withHiddenVisits(quantity: Quantity, samples: readonly Sample[]): Sample[] {
  const found: Sample[] = [];
  for (let i = 1; i + 1 < samples.length; i++) {
    const visit = hiddenVisit(quantity, samples[i - 1], samples[i], samples[i + 1]);
    if (visit) found.push(visit);
  }
  return found.length === 0 ? [...samples] : [...samples, ...found].sort((a, b) => a.atMs - b.atMs);
}

function hiddenVisit(
  quantity: Quantity,
  a: Sample | undefined,
  b: Sample | undefined,
  c: Sample | undefined,
): Sample | null {
  if (!a || !b || !c) return null;
  if (isUp(a) !== isUp(b) || isUp(c) !== isUp(b)) return null;
  const sign = isUp(b) ? 1 : -1;
  const toLeft = sign * (a.value - b.value);
  const toRight = sign * (c.value - b.value);
  // No turn towards zero here; or its curvature is too small to reach zero.
  if (toLeft < 0 || toRight < 0 || sign * b.value > Math.max(toLeft, toRight)) return null;
  const turn = descend((atMs) => sign * quantity(atMs), a.atMs, c.atMs, 0);
  const visit = { atMs: turn.atMs, value: sign * turn.value };
  return isUp(visit) === isUp(b) ? null : visit;
}

/** Golden-section search for a minimum between two instants; stops at the first value below `enough`. */
function descend(quantity: Quantity, fromMs: number, toMs: number, enough: number): Sample {
  const golden = (Math.sqrt(5) - 1) / 2;
  const probe = (atMs: number): Sample => ({ atMs, value: quantity(atMs) });
  let low = fromMs;
  let high = toMs;
  let left = probe(Math.round(high - golden * (high - low)));
  let right = probe(Math.round(low + golden * (high - low)));
  while (high - low > TURN_MS && Math.min(left.value, right.value) >= enough) {
    if (left.value <= right.value) {
      high = right.atMs;
      right = left;
      left = probe(Math.round(high - golden * (high - low)));
    } else {
      low = left.atMs;
      left = right;
      right = probe(Math.round(low + golden * (high - low)));
    }
  }
  return left.value <= right.value ? left : right;
}

/** The first millisecond that is on the later sample's side of zero, by bisection. */
function passage(quantity: Quantity, before: Sample, after: Sample): number {
  let lastOld = before.atMs;
  let firstNew = after.atMs;
  while (firstNew - lastOld > 1) {
    const middle = Math.floor((lastOld + firstNew) / 2);
    if (isUp({ atMs: middle, value: quantity(middle) }) === isUp(after)) firstNew = middle;
    else lastOld = middle;
  }
  return firstNew;
}
