/**
 * Where the trains looked on each target, by the stars of their frames. Pixels as stored, of the train's reference frame.
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
import type { TrainPair } from './stars.js';

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

/** Two trains on one target: the contract's figures and what they rest on. */
export interface PairPointing extends TrainPair {
  readonly geometry: PairGeometry;
  /** Of the second train against the first; `null` with too few frames taken together. */
  readonly flexure: Flexure | null;
}
