/** Registration of frames and trains. Pixel coordinates as in `stars.ts`: the centre of the first pixel is (1, 1). */

/**
 * Registration of a frame to the reference frame of its train and target: a point p there is at R(rotation)·p + (x, y)
 * here.
 */
export interface FrameShift {
  /** Pixels of the reference frame. */
  readonly x: number;
  readonly y: number;
  /** Degrees, from +x towards +y; near 180 after a meridian flip. */
  readonly rotation: number;
  /** Stars that agree. */
  readonly matched: number;
}

/** A sensor's size along NAXIS1 and NAXIS2, px. */
export interface SensorSize {
  readonly width: number;
  readonly height: number;
}

/**
 * A similarity of the plane: the point p maps to scale · R(rotation) · F · p + (x, y). F is the identity, or, when
 * `mirrored`, first negates y. R turns +x towards +y.
 */
export interface Similarity {
  /** Pixels of the target plane. */
  readonly x: number;
  readonly y: number;
  /** Degrees, above −180 and up to 180. */
  readonly rotation: number;
  /** Target pixels per source pixel; above 0. */
  readonly scale: number;
  readonly mirrored: boolean;
}

/** Why star lists could not be registered. */
export const UNREGISTERED_REASONS = [
  'too-few-stars',
  'strips-not-enough',
  'no-match',
  'as-a-random-field',
  'nothing-moved',
  'alone',
] as const;
export type UnregisteredReason = (typeof UNREGISTERED_REASONS)[number];

/** Two registered star lists. */
export interface Registered {
  readonly state: 'registered';
  /** From the reference to the other list. */
  readonly similarity: Similarity;
  /** Number of matched stars in the end. */
  readonly matched: number;
  /** Root mean square distance of the matched stars per axis, px of the reference, weighted. */
  readonly residualPx: number;
  /** Upper estimate of the probability that two unrelated fields match as well. */
  readonly falseAlarm: number;
}

export interface Unregistered {
  readonly state: 'unregistered';
  readonly why: UnregisteredReason;
  /** Stars matched in the best trial. */
  readonly matched: number;
}

export type Registration = Registered | Unregistered;

/** A frame registered to the reference of its field. */
export type RegisteredFrame = Registered & {
  readonly key: string;
  readonly startMs: number;
  readonly shift: FrameShift;
};

/** Frames of one train that show the same field, registered to one of them. */
export interface RegisteredField {
  /** Key of the reference frame. */
  readonly reference: string;
  /** In chronological order, including the reference. */
  readonly frames: readonly RegisteredFrame[];
  /** From the reference of the first field to this one's, if they share enough stars; a mosaic's panels need not. */
  readonly onFirst: Similarity | null;
}

/** The frames of one train and target, registered to their references. */
export interface RegisteredFrames {
  /** The field with most frames first: a mosaic has several, and so has a night on which the pointing was changed. */
  readonly fields: readonly RegisteredField[];
  /** In chronological order. */
  readonly unregistered: readonly (Unregistered & { readonly key: string })[];
}

/** A corner of a polygon, px. */
export interface PixelPoint {
  readonly x: number;
  readonly y: number;
}

/** Two trains' fields on the sky, from the reference frames of one target. */
export interface PairGeometry {
  /** From the pixels of the first train's reference to those of the second. */
  readonly similarity: Similarity;
  /** Pixels of the second per pixel of the first: (arcsec per pixel of the first) / (of the second). */
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
  /** Rotating the second camera by this, around its centre, aligns its sides with the first. */
  readonly turn: {
    /** Degrees in the pixels of the second train, −90 to 90: rotate the sensor by this from +x to +y. */
    readonly byDeg: number;
    /** The common field afterwards, in % of each. */
    readonly overlapPercent: { readonly a: number; readonly b: number };
  };
  /** The common field with the centres aligned and without rotation, in % of each. */
  readonly centred: { readonly overlapPercent: { readonly a: number; readonly b: number } };
}

/**
 * A frame's pointing: the position of the sensor centre on the reference's sky, px of the reference from its own
 * centre.
 */
export interface Aim extends PixelPoint {
  readonly key: string;
  readonly startMs: number;
  readonly seconds: number;
  /** Rotated by about 180° relative to the reference: the other side of the pier. */
  readonly flipped: boolean;
  /** Rotation of the stars relative to the reference, without the 180° of a flip; −90 to 90. */
  readonly rotationDeg: number;
  readonly fwhm: number | null;
  readonly elongation: number | null;
}

/** How fast the pointing drifts on the sky, in the axes of the train's reference frame. */
export interface DriftRate {
  readonly xPxPerHour: number;
  readonly yPxPerHour: number;
  readonly pxPerHour: number;
  /** One standard error along the drift. */
  readonly uncertaintyPxPerHour: number;
  readonly arcsecPerHour: number;
  readonly uncertaintyArcsecPerHour: number;
  /** Number of frames. */
  readonly frames: number;
}

/** A rate over one part of the night on one side of the pier. */
export interface DriftStretch extends DriftRate {
  readonly flipped: boolean;
  readonly startMs: number;
  readonly endMs: number;
}

/** A train's own drift. */
export interface TrainDrift {
  /** Between dithers if runs of frames allow it; else across them, with the dithers as scatter. */
  readonly by: 'between-dithers' | 'through-dithers';
  readonly sides: readonly DriftStretch[];
  /** Hour by hour, if there are enough frames. */
  readonly hours: readonly DriftStretch[];
}

/** The companion's drift relative to the guided train. */
export interface Flexure {
  /** Over both sides of the pier, weighted by time. */
  readonly overall: DriftRate;
  readonly sides: readonly DriftStretch[];
  readonly hours: readonly DriftStretch[];
  /** The resulting trail on a sub of the companion's usual length, px. */
  readonly trailPx: number;
  readonly subSeconds: number;
  /** Longest sub with a trail below 0.5 px at the overall rate, and at that of the fastest hour; `null`: no limit. */
  readonly longestSubSeconds: number | null;
  readonly longestSubWorstHourSeconds: number | null;
  /** If the rate is below twice its uncertainty subs may be longer than these lengths. */
  readonly isMeasured: boolean;
  /** The companion's pointing relative to the pilot's, px of the companion. */
  readonly course: readonly {
    readonly midMs: number;
    readonly flipped: boolean;
    readonly x: number;
    readonly y: number;
  }[];
}

/** Rotation of the field through the night. */
export interface FieldRotation {
  readonly degPerHour: number;
  readonly uncertaintyDegPerHour: number;
  readonly frames: number;
  /** The resulting trail in the corner of the sensor on a sub with the guide star at the centre, px. */
  readonly cornerTrailPx: number;
  readonly subSeconds: number;
  /** Minimum error of the polar axis, if nothing else rotates the field; `null` without a declination below 85°. */
  readonly polarErrorAtLeastArcmin: number | null;
  readonly uncertaintyArcmin: number | null;
}
