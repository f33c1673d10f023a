import type { Account, DarknessKind } from '../vocabulary/index.js';
import type { Goals, TargetGoals } from './goals.js';
import type { Interval } from './interval.js';
import type { Total } from './ledger.js';
import type { Train } from './gathered.js';
import type { Site, Target } from './target.js';

/** One night of the archive, summed up: all that the progress of many nights is made from. */
export interface NightSummary {
  /** The record's file, relative to the archive. */
  readonly file: string;
  /** The evening's local date, `YYYY-MM-DD`. */
  readonly date: string;
  readonly site: ArchivedSite | null;
  readonly window: Interval;
  /** Whether the window is darkness; else it is no more than the span of the activity. */
  readonly isDarkness: boolean;
  /** From the first light's begin to the last one's end; `null` without lights. */
  readonly used: Interval | null;
  readonly trains: readonly TrainSummary[];
  readonly targets: readonly Pick<Target, 'name' | 'aliases' | 'raDeg' | 'decDeg'>[];
  readonly goals: readonly TargetGoals[];
  readonly totals: readonly Total[];
  /** How the fields of two trains lay on each other, by the stars; of several targets the one with most stars. */
  readonly pairs: readonly PairSummary[];
  /** Sub lengths by train and filter, seconds, with the frames of each. */
  readonly subs?: readonly SubsTaken[];
  /** Median of a dither from the order to settled guiding, ms; `null` when none was recorded. */
  readonly ditherMs?: number | null;
  /** Kept frames whose effective time was not measured: they count by the clock in any case. */
  readonly keptWithoutEffective?: number;
  /** What its effective hours are counted in; `null` or absent where the record has none. */
  readonly effectiveReference?: EffectiveReference | null;
  /** No event log speaks of this night. */
  readonly headersOnly: boolean;
  /** Path of the night's report, relative to the archive; `null` when none is known. */
  readonly report: string | null;
}

/** The frame that effective hours are counted in: hours of different ones are never added up. */
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
  /** Degrees between the cameras, a half turn taken out: −90 to 90. */
  readonly rotationDeg: number;
  readonly scaleRatio: number;
  readonly flexureArcsecPerHour: number | null;
}

/** A site as records keep it. */
export interface ArchivedSite extends Pick<Site, 'latitudeDeg' | 'longitudeDeg' | 'elevationM' | 'timezone'> {
  readonly name: string | null;
  /** Absent in records of headers alone and in shared ones. */
  readonly minimumAltitudeDeg?: number;
  readonly horizon: Site['horizon'];
  /** The twilight by which the night's window was taken. */
  readonly darkness: DarknessKind;
}

/** Frames of one length through one filter. */
export interface SubsTaken {
  readonly train: string;
  readonly filter: string;
  readonly seconds: number;
  readonly frames: number;
}

/** What one train did in one night. */
export interface TrainSummary extends Pick<Train, 'id' | 'role' | 'pixelScaleArcsec'> {
  /** Total per account of the ledger, ms; accounts that hold nothing may be absent. */
  readonly accountsMs: Readonly<Partial<Record<Account, number>>>;
  /** Medians over the frames not lost; `null` when no frame tells. */
  readonly guidingRmsArcsec: number | null;
  readonly starSize: number | null;
  /** FWHM, arcseconds; absent in records that do not tell. */
  readonly starFwhmArcsec?: number;
  /** Median wait at a dither, ms; `null` when the train waited at none. */
  readonly ditherWaitMs: number | null;
  /** Free aperture, mm; absent where the record does not tell. */
  readonly apertureMm?: number;
  /** Median from one exposure to the next where nothing lies between, ms; `null` when no two follow each other. */
  readonly betweenSubsMs?: number | null;
}

/** What the user says about the archive beside the records: `goals.yaml`. */
export interface GoalsBook {
  readonly targets: readonly BookTarget[];
  /** Filter names in the records, in lower case, mapped to the name to count under. */
  readonly filterAliases: ReadonlyMap<string, string>;
  /** Further filters that bear moonlight, in lower case. */
  readonly narrowband: ReadonlySet<string>;
}

/** A target of `goals.yaml`. */
export interface BookTarget {
  readonly name: string;
  readonly aliases: readonly string[];
  readonly raDeg?: number;
  readonly decDeg?: number;
  /** How many times an hour of it counts in the plan; 1 when absent. */
  readonly priority?: number;
  /** Absent: the book only gives the target other names, and the rig file's goals stand. */
  readonly goals?: Goals;
}
