import type { DarknessKind, Goals, Rules, Site, Target, TrainRole } from '../model/index.js';

/** A pattern of log files, and the dialect they are written in (absent: nightledger's own formats). */
export interface LogSelector {
  readonly files: readonly string[];
  /** Path of a dialect file, relative to the rig file. */
  readonly dialect?: string;
}

/** A header's value, or several of which one will do. */
export type HeaderValue = string | number | readonly (string | number)[];

/** Header values that identify a train's frames: every pair must match (case and surrounding blanks do not matter). */
export type HeaderMatch = Readonly<Record<string, HeaderValue>>;

/** One train as the rig file describes it. */
export interface TrainConfig {
  readonly id: string;
  readonly role: TrainRole;
  readonly focalLengthMm?: number;
  readonly apertureMm?: number;
  readonly pixelSizeUm?: number;
  /** Properties of camera and filters for effective integration; electrons, electrons per second, nanometres. */
  readonly readNoiseElectrons?: number;
  readonly gainElectronsPerAdu?: number;
  readonly darkCurrentElectronsPerSecond?: number;
  readonly filterWidthsNm: Readonly<Record<string, number>>;
  /** All filters that the rig file names for the train. */
  readonly filterNames?: readonly string[];
  /** Central wavelengths of filters whose names do not imply them, nanometres. */
  readonly filterWavelengthsNm: Readonly<Record<string, number>>;
  /** Moonless sky at the zenith by filter, electrons per second and pixel. */
  readonly filterZenithSkies?: Readonly<Record<string, number>>;
  /** Electrons per photon that enters the telescope, 0…1: optics, filter and sensor together. */
  readonly throughput?: number;
  /** Globs relative to the session folder; empty: by header match only. */
  readonly frames: readonly string[];
  readonly match: HeaderMatch;
  readonly logs: readonly LogSelector[];
  /** The IANA zone this train's headers were written in by mistake; the standard wants UTC. */
  readonly headerTimeZone?: string;
  /** The IANA zone that times without one in this train's logs are in; absent: the site's. */
  readonly logTimeZone?: string;
  /** Seconds that this train's computer is ahead; absent: worked out from the night. */
  readonly clockAheadSeconds?: number;
}

export interface GuidingConfig {
  readonly source: 'off-axis' | 'guide-scope';
  readonly train?: string;
  readonly logs: readonly LogSelector[];
}

export type { Goals } from '../model/index.js';

export interface TargetConfig extends Target {
  readonly goals: Goals;
  /** The rig file has its right ascension as a plain number: degrees, unless somebody wrote hours. */
  readonly isPlainRa?: true;
}

/** A target that the rig file names without its place. */
export type UnplacedTarget = Pick<TargetConfig, 'name' | 'aliases' | 'goals'>;

/** The validated rig file. */
export interface Rig {
  readonly site: Site | null;
  readonly darkness: DarknessKind;
  /** Zenith sky without Moon, magnitudes per square arcsecond; absent: a stated default. */
  readonly darkSkyMagArcsec2?: number;
  /** Length of the frame that effective hours are counted in, seconds; absent: a stated default. */
  readonly referenceSubSeconds?: number;
  readonly trains: readonly TrainConfig[];
  readonly guiding: GuidingConfig | null;
  readonly targets: readonly TargetConfig[];
  /** Targets whose coordinates must come from the headers of their frames. */
  readonly unplaced?: readonly UnplacedTarget[];
  readonly rules: Rules;
  /** Further header keywords per meaning, from the rig file. */
  readonly keywords: Readonly<Record<string, readonly string[]>>;
  /** Filter names the capture programs use, mapped to the name to show. */
  readonly filterAliases: Readonly<Record<string, string>>;
  /** `rig-file`, or `headers` when there was none and it was worked out from the frames. */
  readonly origin: 'rig-file' | 'headers';
}

/**
 * Zenith sky without Moon, magnitudes per square arcsecond, where the rig file gives none: open country. Common
 * practice, no source.
 */
export const DEFAULT_DARK_SKY_MAG_ARCSEC2 = 21;
/**
 * Sub that effective hours are counted in where the rig file gives none, seconds: one for all trains, filters and
 * nights, so that their hours mean the same. Common practice, no source.
 */
export const DEFAULT_REFERENCE_SUB_SECONDS = 300;
/**
 * Electrons per photon where the rig file gives no throughput: optics, filter and a modern sensor. Common practice, no
 * source.
 */
export const DEFAULT_THROUGHPUT = 0.5;
