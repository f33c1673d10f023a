/**
 * Where the trains were pointed on each target, from the stars of their frames. Pixels as stored, of the train's
 * reference frame.
 */
import type { DitherSpread } from './dither-spread.js';
import type {
  FieldRotation,
  Flexure,
  PairGeometry,
  PixelPoint,
  SensorSize,
  TrainDrift,
  UnregisteredReason,
} from './pair.js';

/** A bright star of a reference frame. */
export interface ReferenceStar extends PixelPoint {
  /** Its flux relative to the brightest, 0 to 1. */
  readonly light: number;
}

/** A camera that was rotated, or slipped, between two frames. */
export interface CameraTurnSeen {
  /** Begin of the first frame after it, UTC ms. */
  readonly atMs: number;
  /** Degrees from +x towards +y by which the stars rotated, −90 to 90. */
  readonly byDeg: number;
}

/** One train on one target. */
export interface TrainPointing {
  readonly train: string;
  readonly target: string;
  readonly size: SensorSize;
  /** Arcsec per pixel as stored, by the rig or by the other train's; `null` when unknown. */
  readonly scaleArcsec: number | null;
  /** Id of the reference frame. */
  readonly reference: string;
  /** Its brightest stars. */
  readonly stars: readonly ReferenceStar[];
  /** From the centre of the field to the target according to the reference's header, arcsec; `null` when unknown. */
  readonly targetOffArcsec: number | null;
  /** Frames registered to the reference, and to references of other fields: panels of a mosaic, a changed pointing. */
  readonly registered: number;
  readonly elsewhere: number;
  /** Unregistered frames, by reason. */
  readonly unregistered: readonly { readonly why: UnregisteredReason; readonly frames: number }[];
  /** `null` when the scale is unknown. */
  readonly drift: TrainDrift | null;
  readonly rotation: FieldRotation | null;
  readonly dithers: DitherSpread | null;
  /** Whether the dithers' times are from the log; else from the stars. */
  readonly dithersBy: 'log' | 'stars';
  readonly turns: readonly CameraTurnSeen[];
}

/** How two trains on the same field are aligned. */
export interface TrainPair {
  readonly target: string;
  readonly trains: readonly [string, string];
  /** Pixel scale of the second relative to the first, as measured. */
  readonly scaleRatio: number;
  /** Degrees, from the first's axes to the second's. */
  readonly rotation: number;
  /** Distance of the two field centres, arcseconds. */
  readonly offsetArcsec: number;
  /** Fraction of each train's field covered by the other, by train id. */
  readonly overlap: Readonly<Record<string, number>>;
  /** How fast one moves relative to the other; `null` with too little time to measure it. */
  readonly flexureArcsecPerHour: number | null;
  /** Stars that agree. */
  readonly matched: number;
}

/** Two trains on one target: the contract's figures and their basis. */
export interface PairPointing extends TrainPair {
  readonly geometry: PairGeometry;
  /** Of the second train relative to the first; `null` with too few simultaneous frames. */
  readonly flexure: Flexure | null;
}
