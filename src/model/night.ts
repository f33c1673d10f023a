import type { Activity } from './activity.js';
import type { Frame } from './frame.js';
import type { TargetGoals } from './goals.js';
import type { GuidingByTarget, GuidingSeries, GuidingSummary, InterruptionDrift, Smear } from './guiding.js';
import type { Interval } from './interval.js';
import type { DitherCycle, Total, TrainLedger } from './ledger.js';
import type { ReplayResult } from './replay.js';
import type { SkyNight, SkyPosition, TargetCurve } from './sky.js';
import type { Site, Target } from './target.js';
import type { Cause, Verdict } from './verdict.js';
import type { Warning } from './warning.js';
import type { Source } from './source.js';
import type { FrameWorth, WorthAssessment } from './worth.js';

/** The rules a night was judged by; all are printed in the report. */
export interface Rules {
  /** Seconds of mount motion or settling that an open shutter bears. */
  readonly motionGraceSeconds: number;
  /** Seconds of guiding off that an open shutter bears, and the share of the exposure; the larger counts. */
  readonly guidingOffGraceSeconds: number;
  readonly guidingOffShare: number;
  /** Guiding RMS limit as a multiple of the train's pixel scale. */
  readonly roughGuidingPixels: number;
}

export type TrainRole = 'pilot' | 'companion';

/** One imaging train as the report knows it. */
export interface Train {
  readonly id: string;
  readonly role: TrainRole;
  readonly focalLengthMm?: number;
  readonly apertureMm?: number;
  readonly pixelSizeUm?: number;
  /** Arcseconds per pixel as binned most of the night, when focal length and pixel size are known. */
  readonly pixelScaleArcsec?: number;
}

/** What guides. */
export interface GuideSource {
  readonly source: 'off-axis' | 'guide-scope' | 'unknown';
  /** The train that carries the off-axis guider. */
  readonly train?: string;
}

/** A light with its verdict, its place in the sky and the guiding during it. */
export interface JudgedFrame extends Frame {
  readonly verdict: Verdict;
  /** In the registry's order of precedence; empty when kept without a blemish. */
  readonly causes: readonly Cause[];
  /** At mid-exposure; `null` when the target's place or the site is unknown. */
  readonly sky: SkyPosition | null;
  /** `null` when no samples fall into the exposure. */
  readonly guiding: GuidingSummary | null;
  /** Drift of the stars during the exposure; absent or `null` when there are no samples to tell. */
  readonly smear?: Smear | null;
  /** What its exposure is worth; absent when the target's place or the site is unknown, or it stood below the horizon. */
  readonly worth?: FrameWorth;
}

/** Two clocks compared. Positive: the log's computer is ahead of the header's. */
export interface ClockNote {
  readonly train: string;
  readonly against: string;
  readonly offsetMs: number;
  readonly uncertaintyMs: number;
  readonly pairs: number;
  /** Whether times were shifted by it. */
  readonly corrected: boolean;
}

/** A ranked statement about the night: what it cost, the evidence, what to change and what that would win. */
export interface Finding {
  readonly id: string;
  readonly title: string;
  /** What it cost, ms of one train's dark time. */
  readonly costMs: number;
  readonly frames?: number;
  readonly evidence: readonly string[];
  readonly advice: string;
  /** What following the advice would win, ms; absent when not known. */
  readonly winMs?: number;
  readonly confidence: 'high' | 'medium' | 'low';
  /** Anchors in the report: `frame-…`, `dither-…`, section ids. */
  readonly links?: readonly { readonly text: string; readonly anchor: string }[];
  readonly caution?: string;
}

/** A finding that could not be assessed, and what was missing. */
export interface NotAssessed {
  readonly id: string;
  readonly title: string;
  readonly missing: string;
}

/** One input file and what was taken from it. */
export interface InputFile {
  readonly file: string;
  readonly role: 'frame' | 'event-log' | 'guiding-log' | 'rig-file' | 'dialect';
  readonly train?: string;
  readonly sizeBytes: number;
  /** SHA-256, hex: of the header for frames, of the content for logs. */
  readonly sha256?: string;
  /** Lines read, lines understood; frames have neither. */
  readonly lines?: number;
  readonly understood?: number;
}

/** Everything known about one night: the single object that record and report are renderings of. */
export interface Night {
  /** The evening's local date, `YYYY-MM-DD`. */
  readonly date: string;
  /** Local noon to local noon. */
  readonly span: Interval;
  readonly site: Site | null;
  readonly trains: readonly Train[];
  readonly guideSource: GuideSource;
  readonly targets: readonly Target[];
  /** Targets of the rig file that have goals, imaged on this night or not. */
  readonly goals?: readonly TargetGoals[];
  readonly rules: Rules;
  /** Absent (`null`) when the site is unknown; the window is then the span of the activity. */
  readonly sky: SkyNight | null;
  readonly window: Interval;
  /** Lights, sorted by start. */
  readonly frames: readonly JudgedFrame[];
  /** Everything that is not a light: darks, flats, bias, other. */
  readonly calibration: readonly Frame[];
  /** Header frames without a usable date, and so on: told, not placed. */
  readonly activities: readonly Activity[];
  readonly dithers: readonly DitherCycle[];
  readonly ledgers: readonly TrainLedger[];
  readonly totals: readonly Total[];
  readonly curves: readonly TargetCurve[];
  readonly guiding: GuidingSeries | null;
  readonly guidingOverall: GuidingSummary | null;
  /** Guiding per target and train, over open shutters. */
  readonly guidingByTarget?: readonly GuidingByTarget[];
  /** How far the field moved during each stretch without guiding. */
  readonly guidingDrifts?: readonly InterruptionDrift[];
  readonly clocks: readonly ClockNote[];
  readonly coolers: readonly CoolerReading[];
  readonly findings: readonly Finding[];
  readonly notAssessed: readonly NotAssessed[];
  readonly warnings: readonly Warning[];
  readonly inputs: readonly InputFile[];
  /** No event log said anything: gaps are inferred. */
  readonly headersOnly: boolean;
  /** What the worth of frames and totals rests on; absent when the site is unknown. */
  readonly worth?: WorthAssessment;
  /** The night replayed under other rules, or why it could not be; absent when nobody asked. */
  readonly replay?: ReplayResult;
}

/** A camera temperature reading from a log. */
export interface CoolerReading {
  readonly atMs: number;
  readonly train: string;
  readonly setpointC?: number;
  readonly temperatureC?: number;
  readonly source: Source;
}
