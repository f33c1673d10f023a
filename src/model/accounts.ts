import type { Frame } from './frame.js';
import type { GuidingByTarget, GuidingSummary, InterruptionDrift, Smear } from './guiding.js';
import type { DitherCycle, Total, TrainLedger } from './ledger.js';
import type { SkyPosition } from './sky.js';
import type { Verdict } from '../vocabulary/index.js';
import type { Cause, Cleared } from './verdict.js';

/** A light with its verdict, its position in the sky and the guiding during it. */
export interface JudgedFrame extends Frame {
  readonly verdict: Verdict;
  /** In the registry's order of precedence; empty without objections. */
  readonly causes: readonly Cause[];
  /** Causes refuted by stronger evidence: recorded, but without effect. */
  readonly cleared: readonly Cleared[];
  /** At mid-exposure; `null` when the target's position or the site is unknown. */
  readonly sky: SkyPosition | null;
  /** `null` when no samples fall into the exposure. */
  readonly guiding: GuidingSummary | null;
  /** Drift of the stars during the exposure; absent or `null` without samples. */
  readonly smear?: Smear | null;
}

/** Verdicts, dither cycles, ledgers and totals of one night. */
export interface Accounts {
  /** Sorted by start. */
  readonly lights: readonly JudgedFrame[];
  readonly dithers: readonly DitherCycle[];
  readonly ledgers: readonly TrainLedger[];
  readonly totals: readonly Total[];
  /** Guiding during all exposures. */
  readonly guidingOverall: GuidingSummary | null;
  /** Guiding per target and train, during exposures. */
  readonly guidingByTarget: readonly GuidingByTarget[];
  /** How far the field moved during each interval without guiding. */
  readonly guidingDrifts: readonly InterruptionDrift[];
}
