import type { Certainty } from './activity.js';
import { counted } from '../vocabulary/index.js';

/** One train's result of a replayed night. Milliseconds of exposure; frames are whole exposures. */
export interface ReplayTally {
  readonly keptMs: number;
  readonly keptFrames: number;
  /** Frames not kept: doubtful and lost. */
  readonly lostOrDoubtfulFrames: number;
  /** Idle until the others' shutters closed, for dithers and for pointing. */
  readonly waitedMs: number;
}

/** One replayed night. With several runs, every figure is their mean. */
export interface ReplayOutcome {
  readonly trains: Readonly<Record<string, ReplayTally>>;
  /** All trains together. */
  readonly keptMs: number;
  readonly dithers: number;
  /** Positions of the kept frames of each target, filter and train on the sensor: one between each two dithers. */
  readonly places: readonly DitherPlaces[];
}

/** Number of sensor positions of the kept frames of one target, filter and train. */
export interface DitherPlaces {
  readonly train: string;
  readonly target: string;
  readonly filter: string;
  readonly places: number;
}

/** Recommended number of positions per target, filter and train. Common practice, no source. */
export const DITHER_PLACES = 12;

/** Maximum factor between sub lengths: beyond it the sky and the read noise decide, not the minutes. */
export const EXPOSURE_REACH = 1.5;

/**
 * Minimum delay of a companion's start after the pilot's, when centring and guiding have proved stable, min. Common
 * practice, no source.
 */
export const LEAST_OFFSET_MIN = 2;

/** A start this much earlier is a different start, min. */
export const SOONER_MIN = 2;

/** The limits with their reasons, stated once if rules are outside of them. */
export const LIMITS_SENTENCE =
  `The limits: ${DITHER_PLACES} dither positions for each filter; no sub length changed by more than half unless the ` +
  'night called for longer subs, since minutes alone do not say whether sky and read noise allow it; a companion ' +
  `that starts ${LEAST_OFFSET_MIN} min after the pilot at the earliest, once centring and guiding have proved ` +
  `good, and at least ${SOONER_MIN} min sooner than it did, since what less would gain depends on how its ` +
  `exposures happen to fall.`;

/** `8 dither positions for OIII on heron and too few for 3 more`, of the groups that lack some. */
export function lackingPlaces(short: readonly DitherPlaces[]): string {
  const [worst] = [...short].sort((a, b) => a.places - b.places);
  if (!worst) return '';
  const count = Math.round(worst.places);
  const others = short.length > 1 ? ` and too few for ${short.length - 1} more` : '';
  const places = count === 0 ? 'no dither position' : counted(count, 'dither position');
  return `${places} for ${worst.filter} on ${worst.train}${others}`;
}

/** A change of kept integration relative to the night as it was run, all trains together, ms. */
export interface ReplayGain {
  readonly meanMs: number;
  /** The 10th and 90th percentile over the runs with resampled durations. */
  readonly lowMs: number;
  readonly highMs: number;
}

/** What a what-if changes; one family of rules each. */
export type WhatIfGroup =
  | 'dither-every'
  | 'dither-waits'
  | 'companion-exposure'
  | 'focus'
  | 'refocus'
  | 'pause'
  | 'idle'
  | 'filter-row'
  | 'guiding'
  | 'start-offset'
  | 'dither-lead'
  | 'sub-length'
  | 'own'
  | 'best';

/** The night under other rules. */
export interface WhatIf {
  /** Stable within a report: `dither-every-6`, `companion-exposure-wren-225`. */
  readonly id: string;
  readonly group: WhatIfGroup;
  /** The change, in words. */
  readonly title: string;
  /** An abbreviation of it, for narrow spaces. */
  readonly short: string;
  /** The same change in `replay --set` syntax: `exposure.wren=225`. */
  readonly settings: readonly string[];
  readonly outcome: ReplayOutcome;
  readonly gain: ReplayGain;
  /** What the gain in minutes does not show: fewer dithers leave more pattern, and so on. */
  readonly note?: string;
  /** Whether it concerns the mount, cabling or power. */
  readonly handsOn?: boolean;
  /** Why it is outside what may be advised, in clauses without a full stop; empty if inside. */
  readonly outside: readonly string[];
  /** Sub lengths without frames of the train on this night: `300 s on wren`. Their darks have to be made. */
  readonly newDarks: readonly string[];
}

/** A rule of the night as the replay inferred it. */
export interface ReplayRule {
  readonly name: string;
  readonly value: string;
  readonly certainty: Certainty;
}

/** The replayed night: how reliable the model is, and the results of other rules. */
export interface Replay {
  /** Actual kept integration per train, ms. */
  readonly actualKeptMs: Readonly<Record<string, number>>;
  /** The night's own rules with the measured durations in their original order, everything at its true time. */
  readonly exact: ReplayOutcome;
  /** (replayed − actual) ÷ actual kept integration: all trains together, and each. `null` when nothing was kept. */
  readonly errorShare: number | null;
  readonly errorShares: Readonly<Record<string, number | null>>;
  readonly confidence: 'high' | 'medium' | 'low';
  /** Why the confidence is not high; empty when it is. */
  readonly doubts: readonly string[];
  /** How many frames of which train led to a dither; `null` if there were none. */
  readonly dither: { readonly train: string; readonly frames: number } | null;
  /** The rules of the night, inferred from its frames and logs. */
  readonly rules: readonly ReplayRule[];
  /** The night's own rules, averaged over the runs: the baseline of every gain. */
  readonly baseline: ReplayOutcome;
  /** Runs with resampled durations behind every figure. */
  readonly runs: number;
  readonly whatIfs: readonly WhatIf[];
  /** The best combination within the limits of dithering; `null` when nothing gains a minute. */
  readonly best: WhatIf | null;
}

/** A night that cannot be replayed, and what is missing. */
export interface NotReplayed {
  readonly missing: string;
}

export type ReplayResult = Replay | NotReplayed;

/** Whether a night was replayed. */
export function isReplayed(result: ReplayResult | null): result is Replay {
  return result !== null && !('missing' in result);
}

/** The adjustable rules, their syntax and meaning: for help and for messages. */
export const REPLAY_SETTINGS: readonly { readonly usage: string; readonly meaning: string }[] = [
  { usage: 'dither-every=N|never', meaning: 'frames of the leading train between two dithers' },
  { usage: 'dither-every.TRAIN=N', meaning: 'frames of another train that keeps its own count' },
  {
    usage: 'dither-lead=TRAIN|slowest',
    meaning: 'the train whose frames lead to a dither; the others go on exposing until it is ready',
  },
  { usage: 'dither-waits=yes|no', meaning: 'whether a dither waits until all exposures end' },
  { usage: 'patience.TRAIN=SECONDS', meaning: 'begin no exposure when a dither is due within this' },
  { usage: 'exposure.TRAIN=SECONDS', meaning: 'exposure of every sub of a train' },
  { usage: 'exposure.TRAIN.FILTER=SECONDS', meaning: 'exposure of every sub of a train through one filter' },
  { usage: 'start-offset.TRAIN=MINUTES', meaning: 'start of a train after the pilot’s first exposure' },
  { usage: 'focus=own|together', meaning: 'refocus each when due, or all trains together at the next dither' },
  { usage: 'refocus.TRAIN=needed|offsets', meaning: 'leave out needless refocuses, or those after a filter change' },
  { usage: 'pause.TRAIN=SECONDS', meaning: 'at most this from one exposure to the next' },
  { usage: 'idle.TRAIN=none', meaning: 'leave out stretches in which it was idle for no known reason' },
  { usage: 'filter-row.TRAIN=N', meaning: 'at least N frames through one filter before the next' },
  { usage: 'guiding=off-axis|guide-scope', meaning: 'whether a refocus on the guiding train stops the guiding' },
];
