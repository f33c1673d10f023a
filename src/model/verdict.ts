import type { CauseKind, EvidenceKind } from '../vocabulary/index.js';
import type { Certainty } from './activity.js';
import type { Interval } from './interval.js';
import type { Source } from './source.js';

/** Why a frame is not simply kept: the interruption, how much of the exposure it took, and its source. */
export interface Cause {
  readonly kind: CauseKind;
  /** The verdict of this cause alone. */
  readonly verdict: 'doubtful' | 'lost';
  /** The evidence that decided. */
  readonly by: EvidenceKind;
  /** The interruption's own span (not clipped to the exposure). */
  readonly span: Interval;
  /** Open-shutter time it took, ms. */
  readonly overlapMs: number;
  /** The train that caused it, if known. */
  readonly causedBy?: string;
  /** One sentence with the figures: what happened, how long, against which limit. */
  readonly evidence: string;
  readonly certainty: Certainty;
  readonly sources: readonly Source[];
}

/** A cause that would have counted against the frame, had stronger evidence not shown that nothing was harmed. */
export interface Cleared {
  readonly kind: CauseKind;
  /** The evidence that cleared it. */
  readonly by: EvidenceKind;
  /** One sentence with the figures. */
  readonly evidence: string;
}
