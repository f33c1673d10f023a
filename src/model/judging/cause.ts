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
import type { Displacement } from './evidence/displacement.js';
import type { ExposureFacts, UsualStars } from './facts.js';
import { leastTouchedMs, type Leeway } from './leeway.js';
import type { Judgement } from './evidence/judgement.js';

/** What surrounds a frame: everything a cause may look at. */
export interface Surroundings {
  /** Mount motion and settling that touch the exposure, sorted. */
  readonly motion: readonly Activity[];
  /** Stretches without guiding that touch the exposure, sorted; `null` when no log speaks of guiding. */
  readonly guidingOff: readonly Activity[] | null;
  readonly guiding: GuidingSummary | null;
  readonly sky: SkyPosition | null;
  readonly train: Train;
  readonly rules: Rules;
  readonly darkness: DarknessKind;
  /** The frame's own stars; `null` where the pixels were not measured or say nothing. */
  readonly stars: FrameStars | null;
  readonly usual: UsualStars | null;
  /** What the movement inside the exposure draws; `null` where guiding samples do not cover it. */
  readonly displacement: Displacement | null;
  /** How far the train's clock may be from the mount's. */
  readonly leeway: Leeway;
}

export type { Judgement } from './evidence/judgement.js';

/**
 * One way an exposure is harmed. The file's name is the id; the order of the vocabulary is the precedence. `judge`
 * alone decides, for exposures taken and replayed alike; the rest says where it is written.
 */
export interface LossCause {
  readonly id: CauseKind;
  judge(facts: ExposureFacts, rules: Rules): Judgement;
  /** Every instance on a frame that `judge` found harmed. */
  instances(frame: Frame, around: Surroundings, verdict: Cause['verdict']): Omit<Cause, 'by'>[];
  /** One sentence with the figures that cleared it; asked only of causes whose `judge` clears. */
  whyCleared?(frame: Frame, around: Surroundings, by: EvidenceKind): string;
}

/** What a cause says of a frame. */
export interface Applied {
  readonly causes: readonly Cause[];
  readonly cleared: readonly Cleared[];
}

/** What a cause says that a frame passes. */
export const NOTHING: Applied = { causes: [], cleared: [] };

/**
 * Puts one cause to a frame.
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

/** The strongest evidence that a kind can rest on and that was to be had. */
function evidenceOf(kind: CauseKind, { displacement }: ExposureFacts): EvidenceKind {
  const { restsOn } = causeRow(kind);
  return restsOn.find((by) => by !== 'displacement' || displacement !== null) ?? restsOn[0];
}

/** A frame and its surroundings, reduced to what decides. */
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
    // About the mean: a steady offset leaves stars round.
    guidingRmsArcsec: guiding === null ? null : (guiding.jitterRmsArcsec ?? guiding.totalRmsArcsec),
    pixelScaleArcsec: train.pixelScaleArcsec ?? null,
    sky: sky === null ? null : extended(sky, { sunLimitDeg: TWILIGHTS[darkness].sunAltitudeDeg }),
    stars,
    usual,
    displacement,
  };
}

/** What motion of the mount means to an exposure. */
export function factsOfMotion(
  motion: readonly Activity[],
  exposure: Interval,
): Pick<ExposureFacts, 'motionMs' | 'awayMs'> {
  return { motionMs: touchedMs(motion, exposure), awayMs: awayMs(motion, exposure) };
}

/** Exposure beside its longest still stretch, ms. */
function awayMs(motion: readonly Activity[], exposure: Interval): number {
  if (motion.length === 0) return 0;
  const still = subtract(
    [exposure],
    motion.map((a) => a.span),
  );
  return durationMs(exposure) - still.reduce((longest, span) => Math.max(longest, durationMs(span)), 0);
}

/** The activities that reach into a span, each with its part of it. */
export function touching(
  activities: readonly Activity[],
  span: Interval,
): { readonly activity: Activity; readonly ms: number }[] {
  return activities.map((activity) => ({ activity, ms: overlapMs(activity.span, span) })).filter(({ ms }) => ms > 0);
}

/** How much of a span the activities take, summed. */
export function touchedMs(activities: readonly Activity[], span: Interval): number {
  return touching(activities, span).reduce((sum, { ms }) => sum + ms, 0);
}
