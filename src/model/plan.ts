import type { Interval } from './interval.js';

/** What to take on the coming nights, night after night as if each were clear: to be copied by hand. */
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
  /** What it rests on, in sentences. */
  readonly assumptions: readonly string[];
}

/**
 * Why something is left: too little for a change; the target's place is not known, it is never up in darkness, or it
 * never gets dark; no train has the filter; Moon or twilight forbid it; what is free would not be worth the change, or
 * only if there were no Moon; there is not time for all.
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
  /** Stretches in which the Moon is up. */
  readonly moonUp: readonly Interval[];
  readonly blocks: readonly PlannedBlock[];
  /** Darkness in which nothing is taken, 20 min or longer. */
  readonly free: readonly FreeStretch[];
  /** By line of a goal, what the night adds and what the goal then lacks; hours kept. */
  readonly lines: readonly PlannedLine[];
  /** How far below the best way the plan can be at most, 0…1. */
  readonly shortOfBest: number;
}

/**
 * Why a target is not taken: below its limit; it is not dark enough for broadband; the Moon is too bright or too near;
 * either; no train has its filters; what it needs is taken later in the night; it needs no more; it could be taken, but
 * is not worth a change.
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
  /** Targets that needed something at dusk, and why each is not taken, one reason after another; empty: nothing did. */
  readonly why: readonly { readonly targets: readonly string[]; readonly reasons: readonly FreeReason[] }[];
}

/** A stretch in which nothing is changed. */
export interface PlannedBlock {
  readonly span: Interval;
  readonly target: string;
  /** Whether the mount goes to the target at its begin. */
  readonly isNewTarget: boolean;
  /** Degrees: at the begin, at the end, and the lowest; `null` in a shared plan. */
  readonly altitudeDeg: { readonly begin: number; readonly end: number; readonly least: number } | null;
  /** The Moon while it is up: the least angle to it, degrees; `null` when it is down all the while. */
  readonly moonSeparationDeg: number | null;
  /** Upper transit, UTC ms: the mount flips there where it has to. */
  readonly transitMs: number | null;
  /** Subs on each train between two dithers, so that all trains are idle together. */
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
 * Why a train rests: no goal of the target asks for it; none of the filters that are asked of it can be taken under
 * this sky; its subs would make the others wait; the stretch is too short for a change.
 */
export type RestReason = 'no-goal' | 'sky' | 'out-of-step' | 'short';

export type TrainInBlock =
  | { readonly state: 'rests'; readonly train: string; readonly why: RestReason }
  | {
      readonly state: 'exposes';
      readonly train: string;
      readonly filter: string;
      readonly subSeconds: number;
      /** Whether the length is one that the train has used through that filter. */
      readonly isUsualLength: boolean;
      readonly subs: number;
      /** Kept hours that they are expected to add to the goal. */
      readonly addsHours: number;
      /** Kept hours beyond the goal: extra depth, while another train still takes what is needed. */
      readonly beyondHours: number;
      /** UTC ms: at the begin where target or filter is new, then at intervals. */
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
