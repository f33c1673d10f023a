/**
 * Dithers as the stars show them. Pixels of the train's reference frame.
 */
import type { PixelPoint } from './pair.js';

/** A place the aim was dithered to: the median of its frames, px of the reference. */
export interface DitherPlace extends PixelPoint {
  readonly startMs: number;
  readonly frames: number;
  readonly flipped: boolean;
}

/** One dither as asked and as it came out. */
export interface DitherStep extends PixelPoint {
  readonly atMs: number;
  /** Asked size as logged, px of the guide camera; `null` where the log does not state it. */
  readonly askedPx: number | null;
  readonly gotPx: number;
}

/** Dithers of one train as they came out. */
export interface DitherSpread {
  /** In order of time. */
  readonly places: readonly DitherPlace[];
  readonly steps: readonly DitherStep[];
  /** Robust spread along each axis, px. */
  readonly scatterPx: PixelPoint;
  /** Each place's distance to the nearest other on its side of the pier, px, in the order of the places. */
  readonly nearestPx: readonly number[];
  /** Pairs of places within 1 px of each other, by their indices. */
  readonly repeats: readonly { readonly first: number; readonly second: number; readonly apartPx: number }[];
  readonly oneWay: OneWay;
  readonly settling: MeasuredSettling | null;
}

/**
 * How far drift and dithers go one way: then the pattern of the sensor walks over the stack instead of averaging out.
 */
export interface OneWay {
  /** From the first place to the last, and the way between, px. */
  readonly netPx: number;
  readonly pathPx: number;
  /** Length of the steady trend over the night, and the places' robust spread around it per axis, px. */
  readonly trendPx: number;
  readonly aroundPx: number;
  /** From +x towards +y, 0–360. */
  readonly trendDeg: number;
  /**
   * Mean cosine between one step and the next: −0.5 for random places around a centre, 0 for a random walk, 1 one way.
   */
  readonly nextStepCosine: number;
  readonly isWalking: boolean;
}

/** The first frame after a dither against the others up to the next. */
export interface MeasuredSettling {
  /** Dithers followed by three frames or more. */
  readonly dithers: number;
  /**
   * Median distance of the first frame from the middle of the others, and of each other from the middle of the rest,
   * px.
   */
  readonly firstAwayPx: number;
  readonly othersAwayPx: number;
  /** Median of first over others; `null` where not measured. */
  readonly fwhmRatio: number | null;
  readonly elongationRatio: number | null;
}
