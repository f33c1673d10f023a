/**
 * How frames and trains lie on one another. Pixel coordinates as in `stars.ts`: the centre of the first pixel is (1, 1).
 */
import type { FrameShift } from './stars.js';

/** A sensor's size along NAXIS1 and NAXIS2, px. */
export interface SensorSize {
  readonly width: number;
  readonly height: number;
}

/**
 * A similarity of the plane: the point p goes to scale · R(rotation) · F · p + (x, y). F is the identity, or, when
 * `mirrored`, turns y into −y first. R turns +x towards +y.
 */
export interface Similarity {
  /** Pixels of the plane it leads to. */
  readonly x: number;
  readonly y: number;
  /** Degrees, above −180 and up to 180. */
  readonly rotation: number;
  /** Pixels there for one pixel here; above 0. */
  readonly scale: number;
  readonly mirrored: boolean;
}

/** Why star lists could not be laid on one another. */
export const UNREGISTERED_REASONS = [
  'too-few-stars',
  'strips-too-narrow',
  'no-match',
  'as-a-random-field',
  'nothing-moved',
  'alone',
] as const;
export type UnregisteredReason = (typeof UNREGISTERED_REASONS)[number];

/** Two star lists laid on one another. */
export interface Registered {
  readonly state: 'registered';
  /** From the reference to the other list. */
  readonly similarity: Similarity;
  /** Stars that agree in the end. */
  readonly matched: number;
  /** Root mean square distance of the agreeing stars per axis, px of the reference, by their weights. */
  readonly residualPx: number;
  /** Upper estimate of the probability that two unrelated fields agree as well. */
  readonly falseAlarm: number;
}

export interface Unregistered {
  readonly state: 'unregistered';
  readonly why: UnregisteredReason;
  /** Stars that agreed in the best of the trials. */
  readonly matched: number;
}

export type Registration = Registered | Unregistered;

/** One frame of a train on the reference frame of its field. */
export type FrameRegistration =
  | (Registered & { readonly key: string; readonly shift: FrameShift })
  | (Unregistered & { readonly key: string });

/** Frames of one train that show the same field, laid on one of them. */
export interface RegisteredField {
  /** Key of the reference frame. */
  readonly reference: string;
  /** In order of time, the reference among them. */
  readonly frames: readonly (Registered & { readonly key: string; readonly shift: FrameShift })[];
}

/** A corner of a polygon, px. */
export interface PixelPoint {
  readonly x: number;
  readonly y: number;
}

/** Two trains' fields on the sky, by the reference frames of one target. */
export interface PairGeometry {
  /** From the pixels of the first train's reference to those of the second. */
  readonly similarity: Similarity;
  /** Pixels of the second for one of the first: (arcsec per pixel of the first) / (of the second). */
  readonly scaleRatio: number;
  /** Degrees from the first camera to the second, −180 to 180. */
  readonly rotationDeg: number;
  readonly mirrored: boolean;
  /** From the centre of the first field to that of the second. */
  readonly offsetArcsec: number;
  /** The same, px of the first. */
  readonly offsetPx: PixelPoint;
  /** Common field in % of each train's own. */
  readonly overlapPercent: { readonly a: number; readonly b: number };
  /** The common field's corners, in the pixels of each. */
  readonly overlapPolygon: { readonly a: readonly PixelPoint[]; readonly b: readonly PixelPoint[] };
  /** The second field's corners in the pixels of the first. */
  readonly fieldOfB: readonly PixelPoint[];
  /** Turning the second camera by this, with its centre where it is, lines its sides up with the first. */
  readonly turn: {
    /** Degrees in the pixels of the second train, −90 to 90: the camera is to turn its sensor by this from +x to +y. */
    readonly byDeg: number;
    /** The common field after it, in % of each. */
    readonly overlapPercent: { readonly a: number; readonly b: number };
  };
  /** The common field with the centres brought together and nothing turned, in % of each. */
  readonly centred: { readonly overlapPercent: { readonly a: number; readonly b: number } };
}
