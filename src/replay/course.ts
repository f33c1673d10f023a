/**
 * The course of a night: the input of a replay. Times are UTC ms, durations ms. Everything in it is measured on the
 * night itself, or marked as assumed.
 */
import type { Certainty, Interval, Rules, SkyPosition } from '../model/index.js';
import type { DriftRate, TrainEvidence } from './evidence.js';

/** Measured durations of one kind: in their original order (`null` if missing), and all known ones. */
export interface Durations {
  readonly inOrder: readonly (number | null)[];
  /** Never empty. */
  readonly pool: readonly number[];
  /** The pool's median. */
  readonly typicalMs: number;
  readonly certainty: Certainty;
}

/** Lights of one kind in a row. */
export interface Block {
  readonly target?: string;
  readonly filter?: string;
  readonly exposureMs: number;
  readonly frames: number;
  /** Filter change before it; 0 when the filter stayed. */
  readonly filterMs: number;
}

/**
 * One refocus. It becomes due at an instant and runs as soon as the train's shutter is closed, unless it has a fixed
 * position.
 */
export interface FocusRun {
  readonly dueMs: number;
  /** It runs when the mount has settled after a dither, or before the first exposure of a block; absent: when due. */
  readonly place?: 'after-dither' | { readonly beforeBlock: number };
  readonly durationMs: number;
  /** Whether it stops guiding for every train. */
  readonly pausesGuiding: boolean;
  /** Settling of the guiding afterwards. */
  readonly settleMs: number;
  /** Its purpose: a filter without a known offset, no need visible in the stars, or something else. */
  readonly why?: 'filter-change' | 'needless' | 'other';
}

/**
 * A period in which a train did nothing that the log explains. It takes no part in anything until its end, unless
 * others waited for it.
 */
export interface Absence {
  /** Another train was ready for a dither until it was back. */
  readonly isAwaited?: true;
  /** A hold of this train only, rather than unexplained. */
  readonly isHold?: true;
  readonly dueMs: number;
  readonly untilMs: number;
  /** Set when the absence cuts an open exposure short, at this instant. */
  readonly cutMs?: number;
}

/** One train's part. */
export interface TrainCourse {
  readonly id: string;
  readonly startMs: number;
  /** When its last light ended: later exposures do not count. */
  readonly endMs: number;
  readonly blocks: readonly Block[];
  /** Exposure of the middle frame when all are sorted by length, ms. */
  readonly usualMs: number;
  /** From an exposure's end until the train is free again, by frame. */
  readonly turnarounds: Durations;
  /** From the end of a dither until the next exposure, by cycle. */
  readonly resumes: Durations;
  readonly focusRuns: readonly FocusRun[];
  readonly absences: readonly Absence[];
  /** Arcseconds per pixel; `null` when unknown. */
  readonly pixelScaleArcsec: number | null;
  /** Lengths of its lights and darks: others need new darks, ms. */
  readonly darkLengthsMs: readonly number[];
  /** The longest sub allowed by its measured flexure or saturation; `null` without a limit. */
  readonly longestSub: { readonly ms: number; readonly why: string } | null;
  /** Up to this length sky and read noise favour longer subs, ms; `null` if they do not, or are unknown. */
  readonly longerUpToMs: number | null;
}

/** A stop of the mount other than a dither: a pointing, a flip, a hold. */
export interface Stop {
  readonly beginMs: number;
  /** Begins at its own time and cuts exposures short; else it begins when every train's shutter has closed. */
  readonly atItsTime: boolean;
  /** Ends no earlier than this; `null` when it lasts as long as it lasts. */
  readonly notBeforeMs: number | null;
  readonly durationMs: number;
  /** Spans within it, relative to its begin: the mount moves, guiding is off. */
  readonly motion: readonly Interval[];
  readonly guidingOff: readonly Interval[];
  /** The trains that rest for it. Others continue exposing at their own risk. */
  readonly trains: Readonly<Record<string, StopShare>>;
}

/** How a stop affects one train. */
export interface StopShare {
  /** From this instant on the train begins no further exposure until the stop is over. */
  readonly dueMs: number;
  /** From the stop's end until its next exposure; may be negative if a train began before guiding had settled. */
  readonly resumeMs: number;
  /** An exposure that is open when the stop begins at its own time is cut short. */
  readonly cuts: boolean;
  /** Where the plan continues after a change of target. */
  readonly anchor?: { readonly block: number; readonly framesDone: number };
}

/** What is judged besides the replay's own mount and guiding events. */
export interface Conditions {
  /** Mount motion that no rule changes. */
  readonly motion: readonly Interval[];
  /** Guiding off before, after and across the ends of the night. */
  readonly guidingOff: readonly Interval[];
  /** Guiding off by accident while the night continued: the star lost, a restart. */
  readonly lapses: readonly Interval[];
  readonly guiding: GuidingSums | null;
  /** Stars of the night's own exposures, by train. */
  readonly evidence: ReadonlyMap<string, TrainEvidence>;
  readonly drift: DriftRate;
  /** Per target: positions of it and the Sun, sorted by time. */
  readonly curves: ReadonlyMap<string, readonly SkyPosition[]>;
  /** The Sun's altitude that bounds darkness, degrees; `null` when the site is unknown. */
  readonly sunLimitDeg: number | null;
  readonly rules: Rules;
}

/**
 * Running sums of squared guiding errors on an even grid of time, without the mount's own excursions: any span's RMS in
 * two look-ups. Entry `i` holds all samples before `startMs + i × stepMs`; arcseconds squared.
 */
export interface GuidingSums {
  readonly startMs: number;
  readonly stepMs: number;
  readonly samples: Float64Array;
  readonly squares: Float64Array;
}

/** The rules of a night. */
export interface ReplayRules {
  /** Frames of the leading train between two dithers; `null` for none. */
  readonly ditherEvery: number | null;
  /** The train whose frames are counted. */
  readonly lead: string;
  /** Trains whose open shutters a dither waits for. Others are dithered through. */
  readonly awaited: readonly string[];
  /**
   * Per following train that counts for itself: it waits after so many frames, and the lead waits until it has them.
   */
  readonly ownCount: Readonly<Record<string, number>>;
  /** Per following train that does not: it begins no further exposure if the lead will be ready within this, ms. */
  readonly patienceMs: Readonly<Record<string, number>>;
  /** Exposure per train, ms; absent: as taken. */
  readonly exposureMs: Readonly<Record<string, number>>;
  /** The same for single filters of a train, before the train's own, ms. */
  readonly filterExposureMs: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** Start per train, UTC ms; absent: as it was. */
  readonly startMs: Readonly<Record<string, number>>;
  /** Refocuses that a train skips: those that were not needed, or those made needless by filter offsets. */
  readonly refocus?: Readonly<Record<string, 'needed' | 'offsets'>>;
  /** Trains that skip their unexplained idle periods. */
  readonly neverIdle?: readonly string[];
  /** Maximum interval from one exposure to the next per train, ms; absent: as it was. */
  readonly mostPauseMs?: Readonly<Record<string, number>>;
  /** Minimum number of frames that a train takes through one filter before the next; absent: as it was. */
  readonly filterRows?: Readonly<Record<string, number>>;
  /** Each train refocuses when due, or all together at the next dither. */
  readonly focus: 'own' | 'together';
  readonly guiding: 'off-axis' | 'guide-scope';
}

export interface Course {
  /** Pilot first. */
  readonly trains: readonly TrainCourse[];
  readonly stops: readonly Stop[];
  /** Move and settling of each dither. */
  readonly cycles: Durations;
  /** Whether the count to the next dither restarts after a stop. */
  readonly stopsResetCount: boolean;
  /** The longest exposure of the night, ms. */
  readonly longestMs: number;
  /** Trains that begin no exposure while another's refocus has paused guiding. */
  readonly restsInPauses: readonly string[];
  /** Trains that dithers wait for even before they have begun. */
  readonly awaitedToStart: readonly string[];
  /** Followers whose patience is unknown: it is undetermined whether they would have waited for an imminent dither. */
  readonly unseenPatience?: readonly string[];
  /** Followers that count their own frames, but whose waits a patience explains as well: that, ms. */
  readonly otherPatienceMs?: Readonly<Record<string, number>>;
  readonly conditions: Conditions;
  /** The rules of the night itself. */
  readonly rules: ReplayRules;
  /** What was not measured but assumed, in words. */
  readonly assumed: readonly string[];
}
