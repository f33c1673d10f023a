/**
 * What the night's own frames imply for a replayed exposure. Cloud, wind and focus occur at their times whatever the
 * rules; trails caused by an interruption move with the interruption.
 */
import {
  driftElongation,
  type Displacement,
  overlapMs,
  partitionPoint,
  trailing,
  type ExposureFacts,
  type FrameStars,
  type Interval,
  type Rules,
  type UsualStars,
} from '../model/index.js';
import type { Writable } from './writable.js';

/** One of the night's own exposures with its stars. */
export interface OwnExposure {
  readonly span: Interval;
  readonly motionMs: number;
  readonly unguidedMs: number;
  readonly awayMs: number;
  readonly stars: FrameStars;
  readonly usual: UsualStars;
}

/** What is known about one train's stars. */
export interface TrainEvidence {
  /** Sorted by start, disjoint. */
  readonly exposures: readonly OwnExposure[];
  /** Usual width of its stars; `null` when unknown. */
  readonly sigmaArcsec: number | null;
}

/** How fast the field drifts without guiding, arcseconds per second; `null` if not measured. */
export type DriftRate = number | null;

/** Minimum common fraction of both exposures for them to be the same. */
const SAME_SHARE = 0.98;
/** Interruptions that differ by no more than this are the same, ms. */
const SAME_MS = 2000;

type Disturbed = Pick<ExposureFacts, 'lengthMs' | 'motionMs' | 'unguidedMs'>;

/** Sets the facts on stars and drifts for a replayed exposure; how long it is and what disturbed it are known. */
export function addEvidence(
  facts: Writable<ExposureFacts>,
  span: Interval,
  { exposures, sigmaArcsec }: TrainEvidence,
  drift: DriftRate,
  rules: Rules,
): void {
  const own = nearest(exposures, span);
  facts.displacement = displacementOf(facts, sigmaArcsec, drift);
  facts.stars = own?.stars ?? null;
  facts.usual = own?.usual ?? null;
  // Without pixels of its own it is unknown when within the exposure the mount moved: they clear nothing.
  if (own === undefined) facts.awayMs = facts.motionMs;
  else if (isSame(own, span, facts)) facts.awayMs = own.awayMs;
  else {
    facts.awayMs = facts.lengthMs;
    const { stars, usual } = own;
    const byWeather = own.motionMs === 0 && own.unguidedMs === 0 && trailing({ stars, usual }, rules) !== null;
    if (!byWeather) facts.stars = { ...stars, elongation: null, doubled: undefined };
  }
}

/** The night's exposure with the largest overlap with a span. */
function nearest(exposures: readonly OwnExposure[], span: Interval): OwnExposure | undefined {
  if (exposures.length === 0) return undefined;
  let best: { own: OwnExposure; ms: number } | undefined;
  for (let i = partitionPoint(exposures, (own) => own.span.endMs > span.startMs); i < exposures.length; i++) {
    const own = exposures[i];
    if (own === undefined || own.span.startMs >= span.endMs) break;
    const ms = overlapMs(own.span, span);
    if (best === undefined || ms > best.ms) best = { own, ms };
  }
  return best?.own;
}

function isSame(own: OwnExposure, span: Interval, { lengthMs, motionMs, unguidedMs }: Disturbed): boolean {
  const longestMs = Math.max(lengthMs, own.span.endMs - own.span.startMs);
  return (
    overlapMs(own.span, span) >= SAME_SHARE * longestMs &&
    Math.abs(own.motionMs - motionMs) <= SAME_MS &&
    Math.abs(own.unguidedMs - (unguidedMs ?? 0)) <= SAME_MS
  );
}

function displacementOf(
  { lengthMs, motionMs, unguidedMs }: Disturbed,
  sigmaArcsec: number | null,
  drift: DriftRate,
): Displacement | null {
  if (drift === null || sigmaArcsec === null || motionMs > 0 || !unguidedMs) return null;
  const drawn = driftElongation((drift * unguidedMs) / 1000, Math.min(1, unguidedMs / lengthMs), sigmaArcsec);
  return { drawn, atMost: drawn, isSeen: true };
}
