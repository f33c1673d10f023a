/**
 * The elongation that the movement inside an exposure draws, by the guiding samples.
 *
 * The star's way over the sensor is put together from straight pieces, each with its share of the time; its second
 * moments add to the star's own (variances add under convolution), and the axes of the sum give 1 − b/a. A jump of d
 * during the fraction f adds f(1−f)d², a drift that reaches d during f adds f·d²/3 − f²·d²/4. Derived, no table.
 */
import { decimal, type Rules } from '../../../vocabulary/index.js';
import type { Activity } from '../../activity.js';
import { partitionPoint } from '../../collections.js';
import type { GuidingSeries, InterruptionDrift } from '../../guiding.js';
import { union, type Interval } from '../../interval.js';
import { mean, median } from '../../statistics.js';
import type { Judgement } from '../cause.js';

/** Samples before a motion whose median is where the star stood, those that tell the jitter, and how old they may be, ms. */
const BEFORE = 7;
const JITTER_SAMPLES = 25;
const RECENT_MS = 120_000;
/**
 * A motion's excursion must stand out of the jitter (the RMS of both axes) by this factor to be read from the samples: a
 * sample does so by chance once in 8,000 (Rayleigh: exp(−9)).
 */
const STANDS_OUT = 3;
/** Stretches this close follow one another, ms. */
const ADJACENT_MS = 1000;

/** What moved during an exposure, and what was seen of it. */
export interface Movement {
  readonly exposure: Interval;
  readonly motion: readonly Activity[];
  readonly guidingOff: readonly Activity[];
  readonly guiding: GuidingSeries;
  /** Those that touch the exposure, and those that its stretches without guiding follow. */
  readonly drifts: readonly InterruptionDrift[];
  /** Of the train's stars, arcseconds. */
  readonly sigmaArcsec: number;
}

/** A straight piece of the way: linear from one place to the next, in place before and after. Arcseconds. */
interface Step {
  readonly span: Interval;
  readonly ra: number;
  readonly dec: number;
}

/** Elongation, 1 − b/a, of a round star; `null` where the samples do not cover every part of the movement. */
export function drawnElongation(movement: Movement): number | null {
  const steps = stepsOf(movement);
  if (steps === null || steps.length === 0) return null;
  return elongationOf(movement.exposure, steps, movement.sigmaArcsec ** 2);
}

/** Whether guiding samples cover every motion of the mount in an exposure, and one of them stands out of no jitter. */
export function isMoveUnseen({ motion, guiding }: Pick<Movement, 'motion' | 'guiding'>): boolean {
  const jumps = union(motion.map((a) => a.span)).map((span) => jumpOf(guiding, span));
  return jumps.includes('unseen') && !jumps.includes(null);
}

/**
 * Elongation, 1 − b/a, of a round star that drifts to a distance during a share of the exposure and is then back in its
 * place: f·d²/3 − f²·d²/4 along the track.
 */
export function driftElongation(distanceArcsec: number, share: number, sigmaArcsec: number): number {
  const added = (share / 3 - share ** 2 / 4) * distanceArcsec ** 2;
  return 1 - 1 / Math.sqrt(1 + added / sigmaArcsec ** 2);
}

/** What a displacement makes of an exposure; `null` where there is none. */
export function byDisplacement(displacement: number | null, rules: Rules): Judgement {
  if (displacement === null) return null;
  if (displacement < rules.displacementDoubtful) return { clearedBy: 'displacement' };
  return displacement > rules.displacementLost ? 'lost' : 'doubtful';
}

/** The figure and its limits, for evidence. */
export function drawnText(displacement: number, rules: Rules): string {
  return `the movement draws an elongation of ${decimal(displacement, 2)} on this train: doubtful above ${decimal(rules.displacementDoubtful, 2)}, lost above ${decimal(rules.displacementLost, 2)}`;
}

function stepsOf({ exposure, motion, guidingOff, guiding, drifts }: Movement): Step[] | null {
  const steps: Step[] = [];
  for (const span of union(motion.map((a) => a.span))) {
    const jump = jumpOf(guiding, span);
    if (jump === null || jump === 'unseen') return null;
    steps.push({ span, ...jump });
  }
  let before: Step | undefined;
  for (const { kind, span } of guidingOff) {
    if (kind === 'guiding-start') {
      // Guiding pulls the star back to where it was; what it left from may lie before the exposure.
      const left = drifts.find((d) => Math.abs(d.span.endMs - span.startMs) <= ADJACENT_MS);
      if (left === undefined) return null;
      steps.push({ span, ra: -left.raArcsec, dec: -left.decArcsec });
      before = undefined;
      continue;
    }
    const drift = drifts.find((d) => d.span.startMs === span.startMs && d.span.endMs === span.endMs);
    if (drift === undefined || kind === 'guiding-stopped') return null;
    if (before !== undefined) steps.push(backFrom(before));
    before = { span, ra: drift.raArcsec, dec: drift.decArcsec };
    steps.push(before);
  }
  if (before !== undefined && before.span.endMs < exposure.endMs) steps.push(backFrom(before));
  return steps;
}

/** The guiding is back: the star returns at once. */
function backFrom({ span, ra, dec }: Step): Step {
  return { span: { startMs: span.endMs, endMs: span.endMs }, ra: -ra, dec: -dec };
}

/**
 * How far a dither moved the star: the guiding's target leaps, and the error shows the leap until the mount has
 * followed. `unseen` where no excursion stands out of the jitter, `null` where samples do not cover it.
 */
function jumpOf(series: GuidingSeries, span: Interval): { ra: number; dec: number } | 'unseen' | null {
  const begin = partitionPoint(series.atMs, (t) => t >= span.startMs);
  const end = partitionPoint(series.atMs, (t) => t >= span.endMs);
  if (begin < BEFORE || end - begin < 2 || span.startMs - (series.atMs[begin - BEFORE] ?? -Infinity) > RECENT_MS)
    return null;
  const ras = [...series.raArcsec.subarray(begin - BEFORE, begin)];
  const decs = [...series.decArcsec.subarray(begin - BEFORE, begin)];
  const [ra0, dec0] = [median(ras), median(decs)];
  const from = Math.max(0, begin - JITTER_SAMPLES);
  const jitter = Math.hypot(
    spreadOf(series.raArcsec.subarray(from, begin)),
    spreadOf(series.decArcsec.subarray(from, begin)),
  );
  let far = { ra: 0, dec: 0 };
  for (let i = begin; i < end; i++) {
    const at = { ra: (series.raArcsec[i] ?? NaN) - ra0, dec: (series.decArcsec[i] ?? NaN) - dec0 };
    if (Math.hypot(at.ra, at.dec) > Math.hypot(far.ra, far.dec)) far = at;
  }
  const length = Math.hypot(far.ra, far.dec);
  if (length <= STANDS_OUT * jitter) return 'unseen';
  // The jitter lengthens what is seen, and a sample late after the leap shortens it: neither is taken out.
  return { ra: -far.ra, dec: -far.dec };
}

/** Root mean square about the mean. */
function spreadOf(column: Float64Array): number {
  const middle = mean([...column]);
  return Math.sqrt(mean([...column].map((value) => (value - middle) ** 2)));
}

/** Moments of the way over the exposure, piece by piece between the instants at which anything changes. */
function elongationOf({ startMs, endMs }: Interval, steps: readonly Step[], sigma2: number): number {
  const cuts = [startMs, endMs, ...steps.flatMap(({ span }) => [span.startMs, span.endMs])]
    .filter((t) => t >= startMs && t <= endMs)
    .sort((a, b) => a - b);
  let [x, y, xx, yy, xy] = [0, 0, 0, 0, 0];
  for (let i = 0; i + 1 < cuts.length; i++) {
    const [from, to] = [cuts[i] ?? startMs, cuts[i + 1] ?? endMs];
    if (to <= from) continue;
    const share = (to - from) / (endMs - startMs);
    const a = placeAt(steps, from, true);
    const b = placeAt(steps, to, false);
    x += (share * (a.ra + b.ra)) / 2;
    y += (share * (a.dec + b.dec)) / 2;
    xx += (share * (a.ra ** 2 + a.ra * b.ra + b.ra ** 2)) / 3;
    yy += (share * (a.dec ** 2 + a.dec * b.dec + b.dec ** 2)) / 3;
    xy += (share * (2 * a.ra * a.dec + a.ra * b.dec + b.ra * a.dec + 2 * b.ra * b.dec)) / 6;
  }
  const [cxx, cyy, cxy] = [xx - x * x, yy - y * y, xy - x * y];
  const middle = (cxx + cyy) / 2;
  const spread = Math.hypot((cxx - cyy) / 2, cxy);
  return 1 - Math.sqrt((sigma2 + Math.max(0, middle - spread)) / (sigma2 + middle + spread));
}

/** Where the star stands; at an instant of a leap, after it or before it. */
function placeAt(steps: readonly Step[], atMs: number, after: boolean): { ra: number; dec: number } {
  let [ra, dec] = [0, 0];
  for (const step of steps) {
    const { startMs, endMs } = step.span;
    const gone =
      endMs > startMs
        ? Math.min(1, Math.max(0, (atMs - startMs) / (endMs - startMs)))
        : atMs > startMs || (after && atMs === startMs)
          ? 1
          : 0;
    ra += gone * step.ra;
    dec += gone * step.dec;
  }
  return { ra, dec };
}
