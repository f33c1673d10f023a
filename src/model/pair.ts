/**
 * How frames and trains lie on one another. Pixel coordinates as in `stars.ts`: the centre of the first pixel is (1,
 * 1).
 */

/**
 * How a frame lies on the reference frame of its train and target: a point p there is at R(rotation)·p + (x, y) here.
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
  'strips-not-enough',
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

/** A frame that was laid on the reference of its field. */
export type RegisteredFrame = Registered & {
  readonly key: string;
  readonly startMs: number;
  readonly shift: FrameShift;
};

/** Frames of one train that show the same field, laid on one of them. */
export interface RegisteredField {
  /** Key of the reference frame. */
  readonly reference: string;
  /** In order of time, the reference among them. */
  readonly frames: readonly RegisteredFrame[];
  /** From the reference of the first field to this one's, where they share enough stars; a mosaic's panels need not. */
  readonly onFirst: Similarity | null;
}

/** The frames of one train and target, laid on their references. */
export interface RegisteredFrames {
  /** The field with most frames first: a mosaic has several, and so has a night on which the aim was changed. */
  readonly fields: readonly RegisteredField[];
  /** In order of time. */
  readonly unregistered: readonly (Unregistered & { readonly key: string })[];
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

/**
 * A frame's aim: where on the reference's sky the middle of the sensor looked, px of the reference from its own middle.
 */
export interface Aim extends PixelPoint {
  readonly key: string;
  readonly startMs: number;
  readonly seconds: number;
  /** Turned by about 180° against the reference: the other side of the pier. */
  readonly flipped: boolean;
  /** Of the stars against the reference, the 180° of a flip taken out; −90 to 90. */
  readonly rotationDeg: number;
  readonly fwhm: number | null;
  readonly elongation: number | null;
}

/** How fast an aim wanders on the sky, in the axes of the train's reference frame. */
export interface DriftRate {
  readonly xPxPerHour: number;
  readonly yPxPerHour: number;
  readonly pxPerHour: number;
  /** One standard error along the drift. */
  readonly uncertaintyPxPerHour: number;
  readonly arcsecPerHour: number;
  readonly uncertaintyArcsecPerHour: number;
  /** Frames it rests on. */
  readonly frames: number;
}

/** A rate over one stretch of the night on one side of the pier. */
export interface DriftStretch extends DriftRate {
  readonly flipped: boolean;
  readonly startMs: number;
  readonly endMs: number;
}

/** A train's own drift. */
export interface TrainDrift {
  /** Between dithers where runs of frames allow it; else through them, with the dithers as scatter. */
  readonly by: 'between-dithers' | 'through-dithers';
  readonly sides: readonly DriftStretch[];
  /** Hour by hour, where enough frames allow it. */
  readonly hours: readonly DriftStretch[];
}

/** The companion's drift against the guided train. */
export interface Flexure {
  /** Over both sides of the pier, each by its time. */
  readonly overall: DriftRate;
  readonly sides: readonly DriftStretch[];
  readonly hours: readonly DriftStretch[];
  /** What the overall rate draws on a sub of the companion's usual length, px. */
  readonly trailPx: number;
  readonly subSeconds: number;
  /** Longest sub with a trail below 0.5 px at the overall rate, and at that of the fastest hour; `null`: no limit. */
  readonly longestSubSeconds: number | null;
  readonly longestSubWorstHourSeconds: number | null;
  /** Where the rate is below twice its uncertainty subs may be longer than these lengths. */
  readonly isMeasured: boolean;
  /** The companion's aim against the pilot's, px of the companion. */
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
  /** What it draws in the corner of the sensor on a sub with the guide star at the middle, px. */
  readonly cornerTrailPx: number;
  readonly subSeconds: number;
  /**
   * The polar axis is off by at least this, if nothing else turns the field; `null` without a declination below 85°.
   */
  readonly polarErrorAtLeastArcmin: number | null;
  readonly uncertaintyArcmin: number | null;
}
