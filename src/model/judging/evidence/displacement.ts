/**
 * The elongation caused by movement inside the exposure, from the guiding samples.
 *
 * The star's path on the sensor consists of straight pieces, each with its fraction of the time; its second moments add
 * to the star's own (variances add under convolution), and the axes of the sum give 1 − b/a. A jump of d during the
 * fraction f adds f(1−f)d², a drift that reaches d during f adds f·d²/3 − f²·d²/4. Derived, no table.
 */
import { decimal, type Rules } from '../../../vocabulary/index.js';
import type { Activity } from '../../activity.js';
import type { GuidingSeries, InterruptionDrift } from '../../guiding.js';
import { overlapMs, union, type Interval } from '../../interval.js';
import type { Judgement } from './judgement.js';
import { leapOf, type Leap } from './leap.js';

/** Standard errors by which a jump may exceed its measured length. */
const LEEWAY = 2;
/** Intervals this close are consecutive, ms. */
const ADJACENT_MS = 1000;

/** What moved during an exposure, and what was detected of it. */
export interface Movement {
  readonly exposure: Interval;
  /** Including adjacent motion: the settling after a move at the exposure's end. */
  readonly motion: readonly Activity[];
  readonly guidingOff: readonly Activity[];
  readonly guiding: GuidingSeries;
  /** Those that overlap the exposure, and those followed by its intervals without guiding. */
  readonly drifts: readonly InterruptionDrift[];
  /** Sigma of the train's stars, arcseconds. */
  readonly sigmaArcsec: number;
}

/** A straight piece of the path: linear between two positions, constant before and after. Arcseconds. */
interface Step {
  readonly span: Interval;
  readonly ra: number;
  readonly dec: number;
}

/** Elongations, 1 − b/a, of a round star. */
export interface Displacement {
  /** As measured; a jump that no sample shows counts as zero. */
  readonly drawn: number;
  /** With every jump as long as the jitter of the samples permits. */
  readonly atMost: number;
  /** Every motion of the mount exceeds the jitter. Others may have been small, or undetected. */
  readonly isSeen: boolean;
}

/** The elongation from movement in an exposure; `null` if the samples do not cover all of it. */
export function displacementOf(movement: Movement): Displacement | null {
  const { exposure, motion, guiding, sigmaArcsec } = movement;
  const leaps = union(motion.map((a) => a.span))
    .filter((span) => overlapMs(span, exposure) > 0)
    .map((span) => ({ span, leap: leapOf(guiding, span) }));
  const drifts = driftsOf(movement);
  if (drifts === null || leaps.length + drifts.length === 0) return null;
  const drawn: Step[] = [];
  const most: Step[] = [];
  for (const { span, leap } of leaps) {
    if (leap === null) return null;
    if (leap.isSeen) drawn.push({ span, ra: leap.ra, dec: leap.dec });
    most.push({ span, ...lengthened(leap) });
  }
  const of = (steps: readonly Step[]): number => elongationOf(exposure, [...steps, ...drifts], sigmaArcsec ** 2);
  return { drawn: of(drawn), atMost: of(most), isSeen: leaps.every(({ leap }) => leap?.isSeen === true) };
}

function lengthened({ ra, dec, error }: Leap): { readonly ra: number; readonly dec: number } {
  const length = Math.hypot(ra, dec);
  const more = length > 0 ? 1 + (LEEWAY * error) / length : 1;
  return { ra: ra * more, dec: dec * more };
}

/**
 * Elongation, 1 − b/a, of a round star that drifts to a distance during a fraction of the exposure and then returns:
 * f·d²/3 − f²·d²/4 along the track.
 */
export function driftElongation(distanceArcsec: number, share: number, sigmaArcsec: number): number {
  const added = (share / 3 - share ** 2 / 4) * distanceArcsec ** 2;
  return 1 - 1 / Math.sqrt(1 + added / sigmaArcsec ** 2);
}

/** The verdict of a displacement on an exposure; `null` if it is inconclusive. */
export function byDisplacement(displacement: Displacement | null, rules: Rules): Judgement {
  if (displacement === null) return null;
  const { drawn, atMost, isSeen } = displacement;
  if (drawn > rules.displacementLost) return 'lost';
  // A guider that moves its target gradually shows no jump: absence of detection is no refutation.
  if (!isSeen) return atMost > rules.displacementLost ? null : 'doubtful';
  return atMost < rules.displacementDoubtful ? { clearedBy: 'displacement' } : 'doubtful';
}

/** The figure and its limits, for evidence. */
export function drawnText({ drawn, atMost, isSeen }: Displacement, rules: Rules): string {
  const lost = `lost above ${decimal(rules.displacementLost, 2)}`;
  if (isSeen || drawn > rules.displacementLost)
    return (
      `the movement elongates stars by ${decimal(drawn, 2)} on this train: doubtful above ` +
      `${decimal(rules.displacementDoubtful, 2)}, ${lost}`
    );
  return (
    'no guiding sample shows the movement, which does not disprove it: doubtful; a movement hidden in their jitter ' +
    `elongates stars by at most ${decimal(atMost, 2)} on this train, ${lost}`
  );
}

/** Paths during intervals without guiding, and back; `null` if one of them is unknown. */
function driftsOf({ exposure, guidingOff, drifts }: Movement): Step[] | null {
  const steps: Step[] = [];
  let before: Step | undefined;
  for (const { kind, span } of guidingOff) {
    if (kind === 'guiding-start') {
      // Guiding returns the star to its position; the position it left may be before the exposure.
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

/** Guiding is back: the star returns immediately. */
function backFrom({ span, ra, dec }: Step): Step {
  return { span: { startMs: span.endMs, endMs: span.endMs }, ra: -ra, dec: -dec };
}

/** Moments of the path over the exposure, piece by piece between the instants of change. */
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

/** Position of the star; at the instant of a jump, after it or before it. */
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
