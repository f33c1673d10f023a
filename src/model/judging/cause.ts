import {
  causeRow,
  TWILIGHTS,
  type CauseKind,
  type DarknessKind,
  type EvidenceKind,
  type Rules,
} from '../../vocabulary/index.js';
import type { Activity } from '../activity.js';
import { extended } from '../collections.js';
import type { Frame } from '../frame.js';
import type { GuidingSummary } from '../guiding.js';
import { durationMs, overlapMs, subtract, type Interval } from '../interval.js';
import type { SkyPosition } from '../sky.js';
import type { FrameStars } from '../stars.js';
import type { Train } from '../gathered.js';
import type { Cause, Cleared } from '../verdict.js';
import type { WorseFocus } from '../worse-focus.js';
import type { Displacement } from './evidence/displacement.js';
import type { ExposureFacts, UsualStars } from './facts.js';
import { leastTouchedMs, type Leeway } from './leeway.js';
import type { Judgement } from './evidence/judgement.js';

/** A frame's surroundings: everything a cause may examine. */
export interface Surroundings {
  /** Mount motion and settling that overlap the exposure, sorted. */
  readonly motion: readonly Activity[];
  /** Intervals without guiding that overlap the exposure, sorted; `null` when no log mentions guiding. */
  readonly guidingOff: readonly Activity[] | null;
  readonly guiding: GuidingSummary | null;
  readonly sky: SkyPosition | null;
  readonly train: Train;
  readonly rules: Rules;
  readonly darkness: DarknessKind;
  /** The frame's own stars; `null` if the pixels were not measured or are inconclusive. */
  readonly stars: FrameStars | null;
  readonly usual: UsualStars | null;
  /** The elongation from movement inside the exposure; `null` if guiding samples do not cover it. */
  readonly displacement: Displacement | null;
  /** Possible offset of the train's clock from the mount's. */
  readonly leeway: Leeway;
  /** The train's last refocus, if it made the stars larger. */
  readonly worseFocus?: WorseFocus | undefined;
}

export type { Judgement } from './evidence/judgement.js';

/**
 * One way to harm an exposure. The file's name is the id; the order of the vocabulary is the precedence. `judge` alone
 * decides, for real and replayed exposures alike; the rest provides the evidence.
 */
export interface LossCause {
  readonly id: CauseKind;
  judge(facts: ExposureFacts, rules: Rules): Judgement;
  /** Every instance on a frame that `judge` found harmed. */
  instances(frame: Frame, around: Surroundings, verdict: Cause['verdict']): Omit<Cause, 'by'>[];
  /** One sentence with the figures of the refutation; only for causes whose `judge` can clear. */
  whyCleared?(frame: Frame, around: Surroundings, by: EvidenceKind): string;
}

/** The result of a cause for a frame. */
export interface Applied {
  readonly causes: readonly Cause[];
  readonly cleared: readonly Cleared[];
}

/** The result of a cause for an unharmed frame. */
export const NOTHING: Applied = { causes: [], cleared: [] };

/**
 * Applies one cause to a frame.
 *
 * @param facts the frame and its surroundings as every cause sees them
 */
export function applyCause(
  cause: LossCause,
  frame: Frame,
  around: Surroundings,
  facts = factsOf(frame, around),
): Applied {
  const judgement = cause.judge(facts, around.rules);
  if (judgement === null) return NOTHING;
  if (typeof judgement === 'string') {
    const by = evidenceOf(cause.id, facts);
    return { causes: cause.instances(frame, around, judgement).map((c) => extended(c, { by })), cleared: [] };
  }
  const by = judgement.clearedBy;
  const evidence = cause.whyCleared?.(frame, around, by);
  if (evidence === undefined) throw new TypeError(`${cause.id} was cleared, and its file does not say why`);
  return { causes: [], cleared: [{ kind: cause.id, by, evidence }] };
}

/** The strongest evidence available for causes of a kind. */
function evidenceOf(kind: CauseKind, { displacement }: ExposureFacts): EvidenceKind {
  const { restsOn } = causeRow(kind);
  return restsOn.find((by) => by !== 'displacement' || displacement !== null) ?? restsOn[0];
}

/** A frame and its surroundings, reduced to the decisive facts. */
export function factsOf(frame: Frame, around: Surroundings): ExposureFacts {
  const { motion, guidingOff, guiding, sky, train, darkness, stars, usual, displacement, leeway } = around;
  const sure = (near: readonly Activity[], touchedMs: number): number =>
    leeway.ms === 0 ? touchedMs : leastTouchedMs(near, frame.exposure, leeway.ms);
  const ofMotion = factsOfMotion(motion, frame.exposure);
  const unguidedMs = guidingOff === null ? null : touchedMs(guidingOff, frame.exposure);
  return {
    lengthMs: durationMs(frame.exposure),
    askedMs: frame.askedMs ?? null,
    aborted: frame.aborted === true,
    isCutOff: frame.header?.isCutOff === true,
    ...ofMotion,
    sureMotionMs: sure(leeway.motion, ofMotion.motionMs),
    unguidedMs,
    sureUnguidedMs: unguidedMs === null ? null : sure(leeway.guidingOff, unguidedMs),
    // About the mean: a constant offset leaves stars round.
    guidingRmsArcsec: guiding === null ? null : (guiding.jitterRmsArcsec ?? guiding.totalRmsArcsec),
    pixelScaleArcsec: train.pixelScaleArcsec ?? null,
    sky: sky === null ? null : extended(sky, { sunLimitDeg: TWILIGHTS[darkness].sunAltitudeDeg }),
    stars,
    usual,
    displacement,
  };
}

/** The effect of mount motion on an exposure. */
export function factsOfMotion(
  motion: readonly Activity[],
  exposure: Interval,
): Pick<ExposureFacts, 'motionMs' | 'awayMs'> {
  return { motionMs: touchedMs(motion, exposure), awayMs: awayMs(motion, exposure) };
}

/** Exposure outside its longest still interval, ms. */
function awayMs(motion: readonly Activity[], exposure: Interval): number {
  if (motion.length === 0) return 0;
  const still = subtract(
    [exposure],
    motion.map((a) => a.span),
  );
  return durationMs(exposure) - still.reduce((longest, span) => Math.max(longest, durationMs(span)), 0);
}

/** The activities that overlap a span, each clipped to it. */
export function touching(
  activities: readonly Activity[],
  span: Interval,
): { readonly activity: Activity; readonly ms: number }[] {
  return activities.map((activity) => ({ activity, ms: overlapMs(activity.span, span) })).filter(({ ms }) => ms > 0);
}

/** Total time that the activities take of a span. */
export function touchedMs(activities: readonly Activity[], span: Interval): number {
  return touching(activities, span).reduce((sum, { ms }) => sum + ms, 0);
}
