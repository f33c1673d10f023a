/** Common results of causes based on interruptions: one cause for each that overlaps the exposure. */
import { duration, type CauseKind, type EvidenceKind } from '../../../vocabulary/index.js';
import type { Activity } from '../../activity.js';
import type { Frame } from '../../frame.js';
import type { Cause } from '../../verdict.js';
import { touching, type Surroundings } from '../cause.js';
import { disturbanceText, mainDisturbance } from './disturbance.js';
import { clearedText } from './words.js';

/** `the guide star was lost for 12 s of the exposure`. @param owner the train whose exposure it is */
export function interruptionText(
  { activity, ms }: { readonly activity: Activity; readonly ms: number },
  owner: string,
): string {
  return `${disturbanceText(activity, owner)} for ${duration(ms)} of the exposure`;
}

/** Every interruption of an exposure as a cause. @param limit the limit it was compared with, for the evidence */
export function interruptionCauses(
  kind: CauseKind,
  activities: readonly Activity[],
  frame: Frame,
  verdict: Cause['verdict'],
  limit: string,
): Omit<Cause, 'by'>[] {
  return touching(activities, frame.exposure).map((touched) => ({
    kind,
    verdict,
    span: touched.activity.span,
    overlapMs: touched.ms,
    causedBy: touched.activity.causedBy,
    evidence: `${interruptionText(touched, frame.train)} (${limit})`,
    certainty: touched.activity.certainty,
    sources: touched.activity.sources,
  }));
}

/** Why the longest interruption of an exposure has no effect; empty if none overlaps it. */
export function whyInterruptionCleared(
  activities: readonly Activity[],
  frame: Frame,
  around: Surroundings,
  by: EvidenceKind,
): string {
  const main = mainDisturbance(activities, frame.exposure);
  return main === undefined ? '' : clearedText(interruptionText(main, frame.train), around, by);
}
