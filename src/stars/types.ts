/** Input and output of the stage. */
import type { FrameShift, FrameStars, Star, StarReading, Warning } from '../model/index.js';

/** One frame to measure: its file, and the header facts needed for the pixels. */
export interface FrameToMeasure {
  /** The frame's identity in the night. */
  readonly id: string;
  /** Absolute path. */
  readonly path: string;
  /** Size and modification time of the file (ms since the epoch), for the cache. */
  readonly sizeBytes: number;
  readonly changedMs: number;
  /** Pixels binned along x and y; 1 when absent. Sizes are given in sensor pixels. */
  readonly binning?: { readonly x: number; readonly y: number };
  /** Electrons per ADU, for the photon noise. */
  readonly electronsPerAdu?: number;
  /** The ADU at which the sensor saturates, if in the header. */
  readonly saturationAdu?: number;
  /** `BAYERPAT` of a colour sensor, by the first rows as stored: measured on green. */
  readonly bayerPattern?: string;
}

/** A frame's brightest stars, for registration, relative flux and pictures. */
export interface StarList {
  /** Size of the frame, px as stored. */
  readonly width: number;
  readonly height: number;
  /** Up to 200, brightest first. */
  readonly stars: readonly Star[];
}

/** One frame's brightest stars, and its registration to the group's reference frame, if known. */
export interface FluxFrame {
  readonly list: StarList;
  readonly shift: FrameShift | null;
}

export interface MeasuredFrame {
  readonly stars: FrameStars;
  readonly list: StarList;
}

/** A frame with unusable pixels, and why: a clause that completes 'not measured: …'. */
export interface UnmeasuredFrame {
  readonly reason: string;
}

export type FrameMeasurement = MeasuredFrame | UnmeasuredFrame;

export function isMeasured(measurement: FrameMeasurement): measurement is MeasuredFrame {
  return 'stars' in measurement;
}

/** Progress of the work. */
export interface StarProgress {
  readonly done: number;
  readonly total: number;
  /** Bytes of the files done so far that were not in the cache: for the rate. */
  readonly bytes: number;
}

export interface MeasureOptions {
  readonly by: StarReading;
  /** Threads; 0 measures in the calling thread. The number of cores, four at most, when absent. */
  readonly threads?: number;
  /** The thread's built program; the one beside this stage when absent. Without it the calling thread measures. */
  readonly threadProgram?: string;
  /** Folder of the cache; nothing is cached when absent. */
  readonly cacheFolder?: string;
  /** Ends the work early; what was measured is kept. */
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: StarProgress) => void;
}

export interface MeasuredStars {
  /** By frame id; frames not reached before an interruption are missing. */
  readonly measured: ReadonlyMap<string, FrameMeasurement>;
  readonly warnings: readonly Warning[];
}
