import type { Interval } from './interval.js';

/** What to image on the coming nights, night after night as if each were clear: to be copied by hand. */
export interface Plan {
  /** First evening, `YYYY-MM-DD`. */
  readonly from: string;
  /** The site's name, or `null` when it has none or is left out. */
  readonly site: string | null;
  /** IANA name or `UTC±h` of the site, for its local times; `null` when left out: times then count from dusk. */
  readonly zone: string | null;
  readonly trains: readonly string[];
  readonly nights: readonly PlannedNight[];
  /** What these nights leave of the goals, and why. */
  readonly left: readonly PlannedLeft[];
  /** Its basis, in sentences. */
  readonly assumptions: readonly string[];
}

/**
 * Why something remains: too little for a change; the target's position is unknown, it is never up in darkness, or it
 * never gets dark; no train has the filter; Moon or twilight prevent it; the free time is not worth the change, or only
 * without the Moon; there is not enough time for everything.
 */
export type LeftReason =
  | 'little'
  | 'no-place'
  | 'never-up'
  | 'never-dark'
  | 'no-train'
  | 'sky'
  | 'effort'
  | 'moon-effort'
  | 'time';

export interface PlannedLeft {
  readonly target: string;
  readonly filter: string | null;
  readonly train: string | null;
  readonly lacksHours: number;
  readonly why: LeftReason;
}

export interface PlannedNight {
  readonly date: string;
  /** Darkness; `null` when it does not get dark. */
  readonly window: Interval | null;
  /** Illuminated fraction, 0…1. */
  readonly moonIllumination: number;
  /** Spans in which the Moon is up. */
  readonly moonUp: readonly Interval[];
  readonly blocks: readonly PlannedBlock[];
  /** Unused darkness, 20 min or longer. */
  readonly free: readonly FreeStretch[];
  /** Per goal line, what the night adds and what the goal then lacks; hours kept. */
  readonly lines: readonly PlannedLine[];
  /** Maximum shortfall of the plan from the optimum, 0…1. */
  readonly shortOfBest: number;
}

/**
 * Why a target is not scheduled: below its limit; not dark enough for broadband; the Moon is too bright or too close;
 * either; no train has its filters; it is completed later in the night; it needs no more; it is possible, but not worth
 * a change.
 */
export type FreeReason =
  | 'low'
  | 'twilight'
  | 'moon'
  | 'moon-twilight'
  | 'no-train'
  | 'later'
  | 'reached'
  | 'effort'
  | 'moon-effort';

export interface FreeStretch {
  readonly span: Interval;
  /**
   * Targets that needed something at dusk, and why each is not scheduled, one reason after another; empty: none did.
   */
  readonly why: readonly { readonly targets: readonly string[]; readonly reasons: readonly FreeReason[] }[];
}

/** An interval without changes. */
export interface PlannedBlock {
  readonly span: Interval;
  readonly target: string;
  /** Whether the mount slews to the target at its begin. */
  readonly isNewTarget: boolean;
  /** Degrees: at the begin, at the end, and the lowest; `null` in a shared plan. */
  readonly altitudeDeg: { readonly begin: number; readonly end: number; readonly least: number } | null;
  /** The Moon while it is up: the smallest angle to it, degrees; `null` when it is down throughout. */
  readonly moonSeparationDeg: number | null;
  /** Upper transit, UTC ms: where the mount flips if it has to. */
  readonly transitMs: number | null;
  /** Subs on each train between two dithers, so that all trains are idle simultaneously. */
  readonly dither: DithersInStep | null;
  readonly trains: readonly TrainInBlock[];
}

export interface DithersInStep {
  readonly subs: Readonly<Record<string, number>>;
  /** From one dither to the next, ms. */
  readonly everyMs: number;
  /** How long each train waits for the others, ms. */
  readonly waitMs: Readonly<Record<string, number>>;
}

/**
 * Why a train is idle: no goal of the target requests it; none of the requested filters is possible under this sky; its
 * subs would make the others wait; the interval is too short for a change.
 */
export type RestReason = 'no-goal' | 'sky' | 'out-of-step' | 'short';

export type TrainInBlock =
  | { readonly state: 'rests'; readonly train: string; readonly why: RestReason }
  | {
      readonly state: 'exposes';
      readonly train: string;
      readonly filter: string;
      readonly subSeconds: number;
      /** Whether the train has used the length through that filter. */
      readonly isUsualLength: boolean;
      readonly subs: number;
      /** Kept hours expected to be added to the goal. */
      readonly addsHours: number;
      /** Kept hours beyond the goal: extra depth, while another train is still needed. */
      readonly beyondHours: number;
      /** UTC ms: at the begin if target or filter is new, then at intervals. */
      readonly refocusMs: readonly number[];
    };

export interface PlannedLine {
  readonly target: string;
  readonly filter: string | null;
  /** `null`: all trains together. */
  readonly train: string | null;
  readonly addsHours: number;
  readonly lacksHours: number;
}
