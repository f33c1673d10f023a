import type { TargetGoals } from './goals.js';
import type { GuidingSeries } from './guiding.js';
import type { DarknessKind, Rules } from '../vocabulary/index.js';
import type { Site } from './target.js';
import type { Warning } from './warning.js';

export type TrainRole = 'pilot' | 'companion';

/** One imaging train for the report. */
export interface Train {
  readonly id: string;
  readonly role: TrainRole;
  readonly focalLengthMm?: number;
  readonly apertureMm?: number;
  readonly pixelSizeUm?: number;
  /** Arcseconds per pixel with the binning used most of the night, when focal length and pixel size are known. */
  readonly pixelScaleArcsec?: number;
}

/**
 * Arcseconds per sensor pixel, regardless of binning, for measured widths; the scale as stored if a train has no other,
 * `undefined` if it has none.
 */
export function sensorScaleArcsec({ focalLengthMm, pixelSizeUm, pixelScaleArcsec }: Train): number | undefined {
  // 206.265 arcseconds are a thousandth of a radian: µm over mm.
  return focalLengthMm && pixelSizeUm ? (206.265 * pixelSizeUm) / focalLengthMm : pixelScaleArcsec;
}

/** The rig file's facts on a train's camera and filters, for the worth of its frames. */
export interface CameraFacts {
  /** The train's id. */
  readonly id: string;
  readonly readNoiseElectrons?: number;
  readonly gainElectronsPerAdu?: number;
  readonly darkCurrentElectronsPerSecond?: number;
  /** Bandwidths by filter, nanometres. */
  readonly filterWidthsNm: Readonly<Record<string, number>>;
  /** Central wavelengths of filters whose names do not imply them, nanometres. */
  readonly filterWavelengthsNm: Readonly<Record<string, number>>;
  /** Moonless sky at the zenith by filter, electrons per second and pixel, if given in the rig file. */
  readonly filterZenithSkies?: Readonly<Record<string, number>>;
  /** Electrons per photon that enters the telescope, 0…1: optics, filter and sensor together. */
  readonly throughput?: number;
}

/** The guiding equipment. */
export interface GuideSource {
  readonly source: 'off-axis' | 'guide-scope' | 'unknown';
  /** The train with the off-axis guider. */
  readonly train?: string;
}

/** One input file and what was used from it. */
export interface InputFile {
  readonly file: string;
  readonly role: 'frame' | 'event-log' | 'guiding-log' | 'rig-file' | 'dialect';
  readonly train?: string;
  readonly sizeBytes: number;
  /** SHA-256, hex: of the header for frames, of the content for logs. */
  readonly sha256?: string;
  /** Lines read, lines understood; not for frames. */
  readonly lines?: number;
  readonly understood?: number;
}

/** One night's share of what was gathered, except the headers and log lines of its timeline. */
export interface GatheredNight {
  readonly site: Site | null;
  /** The requested twilight. */
  readonly darkness: DarknessKind;
  /** Moonless sky at the zenith from the rig file, V magnitudes per square arcsecond. */
  readonly darkSkyMagArcsec2?: number;
  /** Length of the reference frame for effective hours from the rig file, seconds. */
  readonly referenceSubSeconds?: number;
  /** The pilot first. */
  readonly trains: readonly Train[];
  readonly cameras: readonly CameraFacts[];
  readonly guideSource: GuideSource;
  /** Targets of the rig file that have goals, imaged on this night or not. */
  readonly goals: readonly TargetGoals[];
  readonly rules: Rules;
  readonly guiding: GuidingSeries | null;
  readonly inputs: readonly InputFile[];
  readonly warnings: readonly Warning[];
}
