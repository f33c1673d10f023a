import type { Account, DarknessKind } from '../vocabulary/index.js';
import type { Goals, TargetGoals } from './goals.js';
import type { Interval } from './interval.js';
import type { Total } from './ledger.js';
import type { Train } from './gathered.js';
import type { Site, Target } from './target.js';

/** Summary of one night of the archive: the basis of the progress of many nights. */
export interface NightSummary {
  /** The record's file, relative to the archive. */
  readonly file: string;
  /** The evening's local date, `YYYY-MM-DD`. */
  readonly date: string;
  readonly site: ArchivedSite | null;
  readonly window: Interval;
  /** Whether the window is darkness; otherwise it is only the span of the activity. */
  readonly isDarkness: boolean;
  /** From the first light's begin to the last one's end; `null` without lights. */
  readonly used: Interval | null;
  readonly trains: readonly TrainSummary[];
  readonly targets: readonly Pick<Target, 'name' | 'aliases' | 'raDeg' | 'decDeg'>[];
  readonly goals: readonly TargetGoals[];
  readonly totals: readonly Total[];
  /** How the fields of two trains overlapped, from the stars; of several targets the one with most stars. */
  readonly pairs: readonly PairSummary[];
  /** Sub lengths by train and filter, seconds, with the frame counts. */
  readonly subs?: readonly SubsTaken[];
  /** Median of a dither from the request to settled guiding, ms; `null` when none was recorded. */
  readonly ditherMs?: number | null;
  /** Kept frames without a measured effective time: they count with their exposure time. */
  readonly keptWithoutEffective?: number;
  /** The reference of its effective hours; `null` or absent if the record has none. */
  readonly effectiveReference?: EffectiveReference | null;
  /** No event log covers this night. */
  readonly headersOnly: boolean;
  /** Path of the night's report, relative to the archive; `null` when none is known. */
  readonly report: string | null;
}

/** The reference frame of effective hours: hours with different references are never added up. */
export interface EffectiveReference {
  readonly subSeconds: number;
  readonly darkSkyMagArcsec2: number;
  /** Zenith skies that the rig file fixes, electrons per second and pixel, by `textsKey` of train and filter. */
  readonly zenithSkies?: Readonly<Record<string, number>>;
}

/** Two trains' fields on one night. */
export interface PairSummary {
  readonly trains: readonly [string, string];
  readonly offsetArcsec: number;
  /** Degrees between the cameras, modulo half a turn: −90 to 90. */
  readonly rotationDeg: number;
  readonly scaleRatio: number;
  readonly flexureArcsecPerHour: number | null;
}

/** A site as stored in records. */
export interface ArchivedSite extends Pick<Site, 'latitudeDeg' | 'longitudeDeg' | 'elevationM' | 'timezone'> {
  readonly name: string | null;
  /** Absent in records made from headers only and in shared ones. */
  readonly minimumAltitudeDeg?: number;
  readonly horizon: Site['horizon'];
  /** The twilight used for the night's window. */
  readonly darkness: DarknessKind;
}

/** Frames of one length through one filter. */
export interface SubsTaken {
  readonly train: string;
  readonly filter: string;
  readonly seconds: number;
  readonly frames: number;
}

/** One train's results of one night. */
export interface TrainSummary extends Pick<Train, 'id' | 'role' | 'pixelScaleArcsec'> {
  /** Total per account of the ledger, ms; accounts that hold nothing may be absent. */
  readonly accountsMs: Readonly<Partial<Record<Account, number>>>;
  /** Medians over the frames not lost; `null` without data. */
  readonly guidingRmsArcsec: number | null;
  readonly starSize: number | null;
  /** FWHM, arcseconds; absent in records without it. */
  readonly starFwhmArcsec?: number;
  /** Median wait at a dither, ms; `null` when the train waited at none. */
  readonly ditherWaitMs: number | null;
  /** Clear aperture, mm; absent if not in the record. */
  readonly apertureMm?: number;
  /** Median from one exposure to the next with nothing in between, ms; `null` when no two follow each other. */
  readonly betweenSubsMs?: number | null;
}

/** The user's additions to the archive's records: `goals.yaml`. */
export interface GoalsBook {
  readonly targets: readonly BookTarget[];
  /** Filter names in the records, in lower case, mapped to the name they count under. */
  readonly filterAliases: ReadonlyMap<string, string>;
  /** Additional filters that tolerate moonlight, in lower case. */
  readonly narrowband: ReadonlySet<string>;
}

/** A target of `goals.yaml`. */
export interface BookTarget {
  readonly name: string;
  readonly aliases: readonly string[];
  readonly raDeg?: number;
  readonly decDeg?: number;
  /** Weight of an hour of it in the plan; 1 when absent. */
  readonly priority?: number;
  /** Absent: the book only adds names for the target, and the rig file's goals apply. */
  readonly goals?: Goals;
}
