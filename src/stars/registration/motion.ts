/** Whether a field moved at all, and whether the camera was rotated. */
import type { RegisteredFrame, RegisteredFrames, SensorSize } from '../../model/index.js';
import { centreOf, compose, transform, wrapDegrees } from './similarity.js';

/** The sky is never stationary to this level, hot pixels are, px (common practice, no source). */
const STILL_PX = 0.01;
/** Fewer frames could match by chance. */
const FEWEST_FRAMES = 3;

/**
 * `false` if the frames match the first of them within the errors of their centroids: guiding and air move stars from
 * sub to sub, and only sensor artefacts stay. Undecided with fewer than three frames.
 */
export function hasMoved(frames: readonly RegisteredFrame[], size: SensorSize): boolean {
  if (frames.length < FEWEST_FRAMES) return true;
  const centre = centreOf(size);
  const reach = Math.hypot(centre.x, centre.y);
  return frames.some((f) => {
    const there = transform(f.similarity, centre);
    const error = (4 * f.residualPx) / Math.sqrt(Math.max(1, f.matched));
    const turned = Math.abs(f.similarity.rotation) * (Math.PI / 180) * reach;
    return Math.hypot(there.x - centre.x, there.y - centre.y) > STILL_PX + error || turned > 5 * (STILL_PX + error);
  });
}

/** A step in the direction of the field that no polar axis error produces. */
export interface CameraTurn {
  /** The frames before and after it. */
  readonly afterKey: string;
  readonly atKey: string;
  /** Degrees from +x towards +y by which the stars rotated, −90 to 90: without the 180° of a meridian flip. */
  readonly byDeg: number;
}

/** Fields rotate by hundredths of a degree an hour; hands turn by more (common practice, no source). */
const LEAST_TURN_DEG = 0.3;

/** Where the camera was rotated (or slipped) between frames of one train and target, in chronological order. */
export function cameraTurns({ fields }: RegisteredFrames): readonly CameraTurn[] {
  const frames = fields
    .flatMap(({ frames, onFirst }) =>
      onFirst ? frames.map((f) => ({ ...f, rotation: compose(f.similarity, onFirst).rotation })) : [],
    )
    .sort((a, b) => a.startMs - b.startMs || (a.key < b.key ? -1 : 1));
  return frames.flatMap((at, i) => {
    const after = frames[i - 1];
    if (!after) return [];
    const byDeg = halfTurn(at.rotation - after.rotation);
    return Math.abs(byDeg) >= LEAST_TURN_DEG ? [{ afterKey: after.key, atKey: at.key, byDeg }] : [];
  });
}

/** A direction modulo half a turn: above −90° and up to 90°. */
export function halfTurn(degrees: number): number {
  return wrapDegrees(2 * degrees) / 2;
}
