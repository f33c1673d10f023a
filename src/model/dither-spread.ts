/** Dithers measured from the stars. Pixels of the train's reference frame. */
import type { PixelPoint } from './pair.js';

/** A pointing between two dithers: the median of its frames, px of the reference. */
export interface DitherPlace extends PixelPoint {
  readonly startMs: number;
  readonly frames: number;
  readonly flipped: boolean;
}

/** One dither, requested and actual. */
export interface DitherStep extends PixelPoint {
  readonly atMs: number;
  /** Requested size as logged, px of the guide camera; `null` if the log does not state it. */
  readonly askedPx: number | null;
  readonly gotPx: number;
}

/** Measured dithers of one train. */
export interface DitherSpread {
  /** In chronological order. */
  readonly places: readonly DitherPlace[];
  readonly steps: readonly DitherStep[];
  /** Robust spread along each axis, px. */
  readonly scatterPx: PixelPoint;
  /** Each position's distance to the nearest other on its side of the pier, px, in the order of the positions. */
  readonly nearestPx: readonly number[];
  /** Pairs of positions within 1 px of each other, by index. */
  readonly repeats: readonly { readonly first: number; readonly second: number; readonly apartPx: number }[];
  readonly oneWay: OneWay;
  readonly settling: MeasuredSettling | null;
}

/**
 * How far drift and dithers go in one direction: then the pattern of the sensor moves across the stack instead of
 * averaging out.
 */
export interface OneWay {
  /** From the first position to the last, and the path length between, px. */
  readonly netPx: number;
  readonly pathPx: number;
  /** Length of the steady trend over the night, and the positions' robust spread around it per axis, px. */
  readonly trendPx: number;
  readonly aroundPx: number;
  /** From +x towards +y, 0–360. */
  readonly trendDeg: number;
  /**
   * Mean cosine between one step and the next: −0.5 for random positions around a centre, 0 for a random walk, 1 for a
   * single direction.
   */
  readonly nextStepCosine: number;
  readonly isWalking: boolean;
}

/** The first frame after a dither compared with the others up to the next. */
export interface MeasuredSettling {
  /** Dithers followed by at least three frames. */
  readonly dithers: number;
  /**
   * Median distance of the first frame from the centre of the others, and of each other from the centre of the rest,
   * px.
   */
  readonly firstAwayPx: number;
  readonly othersAwayPx: number;
  /** Median of first over others; `null` if not measured. */
  readonly fwhmRatio: number | null;
  readonly elongationRatio: number | null;
}
