/** The input of a plan: trains, targets that lack something, and the sky of each night. The sky is passed in. */
import type { Interval } from '../model/index.js';

/** A train according to its past nights and its rig file. */
export interface PlanTrain {
  readonly id: string;
  readonly apertureMm: number | null;
  readonly pixelScaleArcsec: number | null;
  /** Kept fraction of the time of its subs, 0…1. */
  readonly keptShare: number;
  /** Time between two subs, ms. */
  readonly betweenSubsMs: number;
  /** Usual sub length by filter, seconds: the filters that the train is known to have. */
  readonly subSeconds: ReadonlyMap<string, number>;
  /** Filters that it has according to the rig file but has not used, with an initial length, seconds. */
  readonly newFilters: ReadonlyMap<string, number>;
  /** Whether a filter that no train is known to have may be on it: its filters were not stated. */
  readonly mayHaveOthers: boolean;
}

/** Hours that a goal lacks, in exposure time. */
export interface PlanLine {
  /** `null`: through any filter. */
  readonly filter: string | null;
  /** `null`: by any train. */
  readonly train: string | null;
  readonly hours: number;
  /** Missing fraction of the goal, 0…1. */
  readonly share: number;
}

export interface PlanTarget {
  readonly name: string;
  /** How many times an hour of it counts; 1 is usual. */
  readonly priority: number;
  /** Days until its season ends; `null` when it does not end soon. */
  readonly daysLeft: number | null;
  readonly lines: readonly PlanLine[];
}

/** A target during one slot. Degrees. */
export interface TargetInSlot {
  /** Above its limit from the slot's begin to its end. */
  readonly isUp: boolean;
  readonly altitudeDeg: { readonly begin: number; readonly end: number };
  readonly moonSeparationDeg: number;
  /** Upper transit within the slot, UTC ms. */
  readonly transitMs: number | null;
  /** The value of an hour through a filter relative to one under a dark zenith, 0…1; 0 if not possible. */
  worth(filter: string): number;
  /** The value of that hour without the Moon. */
  moonless(filter: string): number;
  /** What prevents a filter there while the target is up; `null`: nothing. */
  bar(filter: string): SkyBar | null;
}

/** The Moon too bright or too near, or twilight. */
export type SkyBar = 'moon' | 'twilight';

/** An interval of darkness in which one thing is done. */
export interface Slot {
  readonly span: Interval;
  readonly moonAltitudeDeg: number;
  /** In the order of the question's targets. */
  readonly targets: readonly TargetInSlot[];
}

export interface NightToPlan {
  /** The evening, `YYYY-MM-DD`. */
  readonly date: string;
  /** Illuminated fraction of the Moon, 0…1. */
  readonly moonIllumination: number;
  /** Consecutive. */
  readonly slots: readonly Slot[];
}

export interface PlanQuestion {
  readonly nights: readonly NightToPlan[];
  readonly trains: readonly PlanTrain[];
  readonly targets: readonly PlanTarget[];
  /** Additional filters that tolerate moonlight, in lower case. */
  readonly narrowband: ReadonlySet<string>;
  /** A dither from the order to settled guiding, ms. */
  readonly ditherMs: number;
}
