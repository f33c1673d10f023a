/**
 * Where the trains looked on each target, by the stars of their frames. Pixels as stored, of the train's reference
 * frame.
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
  /** Its flux by that of the brightest, 0 to 1. */
  readonly light: number;
}

/** A camera that was turned, or slipped, between two frames. */
export interface CameraTurnSeen {
  /** Begin of the first frame after it, UTC ms. */
  readonly atMs: number;
  /** Degrees from +x towards +y that the stars turned, −90 to 90. */
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
  /** From the middle of the field to the target by the reference's header, arcsec; `null` when not known. */
  readonly targetOffArcsec: number | null;
  /** Frames laid on the reference, and on references of other fields: panels of a mosaic, a changed aim. */
  readonly registered: number;
  readonly elsewhere: number;
  /** Frames laid on none, by reason. */
  readonly unregistered: readonly { readonly why: UnregisteredReason; readonly frames: number }[];
  /** `null` when the scale is not known. */
  readonly drift: TrainDrift | null;
  readonly rotation: FieldRotation | null;
  readonly dithers: DitherSpread | null;
  /** Whether the dithers' times are the log's; else those of the stars. */
  readonly dithersBy: 'log' | 'stars';
  readonly turns: readonly CameraTurnSeen[];
}

/** How two trains that look at the same field lie on each other. */
export interface TrainPair {
  readonly target: string;
  readonly trains: readonly [string, string];
  /** Pixel scale of the second by that of the first, as found. */
  readonly scaleRatio: number;
  /** Degrees, from the first's axes to the second's. */
  readonly rotation: number;
  /** Distance of the two field centres, arcseconds. */
  readonly offsetArcsec: number;
  /** Share of each train's field that the other covers, by train id. */
  readonly overlap: Readonly<Record<string, number>>;
  /** How fast one moves against the other; `null` with too little time to tell. */
  readonly flexureArcsecPerHour: number | null;
  /** Stars that agree. */
  readonly matched: number;
}

/** Two trains on one target: the contract's figures and what they rest on. */
export interface PairPointing extends TrainPair {
  readonly geometry: PairGeometry;
  /** Of the second train against the first; `null` with too few frames taken together. */
  readonly flexure: Flexure | null;
}
