/** Gaps between two frames in which the mount was pointed anew, and how much of the gap pointing can have taken. */
import { interval, separationDeg, type ActivityKind, type Frame, type Interval } from '../model/index.js';

/** The two frames around a gap. */
interface Around {
  readonly before: Frame;
  readonly after: Frame;
}

/** In a longer gap it is unknown when the mount was moved, ms. Common practice, no source, as are the others. */
const LONGEST_GAP_MS = 1_800_000;
/** Slew rate of slow mounts, degrees per second. */
const SLEW_DEG_PER_S = 1;
/** Centring, and starting the guiding, after the slew, ms. */
const CENTRING_MS = 300_000;
/** The assumed slew distance if unknown, and for a flip, degrees: half a turn. */
const LONGEST_WAY_DEG = 180;
/** A field this far from the last one is another pointing, degrees. */
const NEW_FIELD_DEG = 0.2;
/** A target by another name this close to the last field is the same one, degrees: dithers move by less. */
const SAME_FIELD_DEG = 0.05;

/** Another field, or the mount on the other side of the pier. @param lengthMs of the gap after its readout */
export function pointingChange({ before, after }: Around, lengthMs: number): ActivityKind | null {
  if (lengthMs > LONGEST_GAP_MS) return null;
  if (isOtherSide(before, after)) return 'flip';
  const isOtherTarget = before.target !== undefined && after.target !== undefined && before.target !== after.target;
  const way = wayDeg(before, after);
  const isAway = way === null ? isOtherTarget : way > (isOtherTarget ? SAME_FIELD_DEG : NEW_FIELD_DEG);
  return isAway ? 'slew' : null;
}

export function isPointing(kind: ActivityKind | null): boolean {
  return kind === 'slew' || kind === 'flip';
}

/**
 * The final part of a rest, as long as pointing can have taken over the mount's slew distance: the next frame began
 * once it was over. Anything before it is unexplained.
 */
export function lastOfPointing({ startMs, endMs }: Interval, { before, after }: Around): Interval {
  const way = isOtherSide(before, after) ? LONGEST_WAY_DEG : (wayDeg(before, after) ?? LONGEST_WAY_DEG);
  const longestMs = Math.round((way / SLEW_DEG_PER_S) * 1000) + CENTRING_MS;
  return interval(Math.max(startMs, endMs - longestMs), endMs);
}

function isOtherSide({ header: a }: Frame, { header: b }: Frame): boolean {
  return a?.pierSide !== undefined && b?.pierSide !== undefined && a.pierSide !== b.pierSide;
}

/** How far apart the fields are, degrees; `null` if a header does not say. */
function wayDeg({ header: a }: Frame, { header: b }: Frame): number | null {
  const [from, to] = [a?.pointing, b?.pointing];
  return from && to ? separationDeg(from.raDeg, from.decDeg, to.raDeg, to.decDeg) : null;
}
