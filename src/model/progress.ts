import type { NightSummary, PairSummary } from './archive.js';
import type { VerdictTally } from './ledger.js';
import type { Warning } from './warning.js';

/** How far along the targets of an archive are. Milliseconds of exposure. */
export interface Progress {
  /** Oldest first. */
  readonly nights: readonly NightSummary[];
  /** Every train of the archive, pilots first. */
  readonly trains: readonly string[];
  /** Unfinished ones first, then by the last night they were imaged on. */
  readonly targets: readonly TargetProgress[];
  readonly months: readonly MonthSummary[];
  readonly trends: readonly NightTrend[];
  /** Caveats about the figures: differing sites, names that may mean one target, clocks. */
  readonly notices: readonly Warning[];
}

/** One target over all nights. */
export interface TargetProgress {
  readonly name: string;
  /** Other names under which it was imaged. */
  readonly otherNames: readonly string[];
  /** J2000 / ICRS, degrees; `null` when in no record and no goal. */
  readonly place: { readonly raDeg: number; readonly decDeg: number } | null;
  readonly lines: readonly ProgressLine[];
  /** Over all filters and trains. */
  readonly ms: VerdictTally;
  readonly frames: VerdictTally;
  /** Goals of all lines together, and what is missing; `null` without goals. */
  readonly goalMs: number | null;
  readonly remainingMs: number | null;
  readonly nights: readonly TargetNight[];
}

/** A filter of a target: for all trains together, or for one if the goal is that train's. */
export interface ProgressLine {
  /** Filter, or `null` for a goal over all filters. */
  readonly filter: string | null;
  /** Train, or `null` for all together. */
  readonly train: string | null;
  readonly goalMs: number | null;
  readonly ms: VerdictTally;
  readonly frames: VerdictTally;
  /** What the goal is still missing, never negative; `null` without a goal. */
  readonly remainingMs: number | null;
  /** Nights with a kept frame. */
  readonly nights: number;
  /** Kept integration per train. */
  readonly keptByTrainMs: Readonly<Record<string, number>>;
}

/** The contribution of one night to one target. */
export interface TargetNight {
  readonly date: string;
  readonly file: string;
  readonly report: string | null;
  readonly ms: VerdictTally;
  readonly keptByFilterMs: Readonly<Record<string, number>>;
  readonly keptByTrainMs: Readonly<Record<string, number>>;
}

/** One calendar month of nights, by the evening's date. */
export interface MonthSummary {
  /** `YYYY-MM` */
  readonly month: string;
  readonly nights: number;
  /** Darkness of those nights; nights without a known site count as zero. */
  readonly darkMs: number;
  /** From first light to last, inside darkness. */
  readonly usedMs: number;
  /** Kept integration, all trains together. */
  readonly keptMs: number;
}

/** One night's figures of merit; `null` if unknown. */
export interface NightTrend {
  readonly date: string;
  readonly atMs: number;
  /** Darkness, the part of it from first light to last, and kept open shutter per train (their mean), ms. */
  readonly darkMs: number | null;
  readonly usedMs: number;
  readonly keptPerTrainMs: number;
  /** Kept integration of all trains, ms. */
  readonly keptMs: number;
  /** Kept integration ÷ time from first light to last, mean of the trains. */
  readonly efficiency: number | null;
  /** Kept integration of all trains ÷ that of the better one. */
  readonly twinGain: number | null;
  readonly trains: readonly TrainTrend[];
  readonly pairs: readonly PairTrend[];
}

/** A pair's figures on one night, and what changed since the night before on which it was measured. */
export interface PairTrend extends PairSummary {
  /** `turned by 1.2°`; empty without a change. */
  readonly touched: readonly string[];
}

export interface TrainTrend {
  readonly train: string;
  readonly guidingRmsArcsec: number | null;
  readonly starSize: number | null;
  readonly starFwhmArcsec?: number;
  readonly ditherWaitMs: number | null;
}
