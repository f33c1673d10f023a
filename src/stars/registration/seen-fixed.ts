/**
 * Sensor artefacts revealed by registration: a position with a detection while the sky moved past it. Also finds hot
 * pixels that pass for stars in some frames only, at the limit of classification by shape.
 */
import type { PixelPoint, RegisteredField, RegisteredFrame, SensorSize } from '../../model/index.js';
import type { FrameToRegister } from './frames.js';
import { gridOf, nearest } from './grid.js';
import { centreOf, inverse, transform } from './similarity.js';
import { starListOf } from './star-list.js';

/** Number of a field's pointings that are examined. */
const MOST_AIMS = 24;
/**
 * Number of pointings in which the same position must have a detection: chance does that for one star in thousands of
 * nights (D).
 */
const FEWEST_AIMS = 3;
/** Tolerance for the same position, px. */
const STILL_PX = 0.4;
/** The sky counts as moved from this distance on, px: the same star is measured again to within a tenth of that. */
const MOVED_PX = 1.5;

/** One pointing: the positions of a frame's detections, and which part of the sky each sensor position showed. */
interface AimedList {
  readonly grid: ReturnType<typeof gridOf>;
  readonly skyAt: (place: PixelPoint) => PixelPoint;
}

/** Sensor positions at which frames of one field with different pointings have a detection, each position once. */
export function seenFixed(
  fields: readonly RegisteredField[],
  frames: ReadonlyMap<string, FrameToRegister>,
  size: SensorSize,
): readonly PixelPoint[] {
  const found: PixelPoint[] = [];
  for (const field of fields) {
    const aims = aimsOf(field.frames, size).flatMap(({ key, similarity }): AimedList[] => {
      const frame = frames.get(key);
      const toSky = inverse(similarity);
      return frame ? [{ grid: gridOf(starListOf(frame.stars)), skyAt: (place) => transform(toSky, place) }] : [];
    });
    for (const { list } of aims.slice(0, Math.max(0, aims.length - FEWEST_AIMS + 1)).map(({ grid }) => grid))
      for (let i = 0; i < list.count; i++) {
        const place = { x: list.x[i]!, y: list.y[i]! };
        if (skiesAt(place, aims) >= FEWEST_AIMS && found.every((one) => !isNear(one, place, 2 * STILL_PX)))
          found.push(place);
      }
  }
  return found;
}

/** Frames with distinct pointings, in chronological order, spread over the night if there are many. */
function aimsOf(frames: readonly RegisteredFrame[], size: SensorSize): readonly RegisteredFrame[] {
  const centre = centreOf(size);
  const aims: { readonly frame: RegisteredFrame; readonly at: PixelPoint }[] = [];
  for (const frame of frames) {
    const at = transform(frame.similarity, centre);
    if (aims.every((other) => !isNear(other.at, at, MOVED_PX))) aims.push({ frame, at });
  }
  const count = Math.min(MOST_AIMS, aims.length);
  return Array.from({ length: count }, (_, i) => aims[Math.floor(((i + 0.5) * aims.length) / count)]).flatMap((aim) =>
    aim ? [aim.frame] : [],
  );
}

/** How many parts of the sky were seen as a star at one position. */
function skiesAt(place: PixelPoint, aims: readonly AimedList[]): number {
  const skies: PixelPoint[] = [];
  for (const { grid, skyAt } of aims) {
    if (nearest(grid, place.x, place.y, STILL_PX) < 0) continue;
    const sky = skyAt(place);
    if (skies.every((other) => !isNear(other, sky, MOVED_PX))) skies.push(sky);
  }
  return skies.length;
}

function isNear(a: PixelPoint, b: PixelPoint, withinPx: number): boolean {
  return Math.hypot(a.x - b.x, a.y - b.y) <= withinPx;
}
