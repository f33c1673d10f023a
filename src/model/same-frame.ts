/** When two sessions' frames are the same frame. */
import type { Frame } from './frame.js';
import { durationMs } from './interval.js';

/** Log and header times of the same exposure differ at most by this, ms. */
const TOLERANCE_MS = 1000;

/** The frames counted so far, indexed by everything that identifies one. */
export class FrameBook {
  private readonly identities = new Map<string, Frame>();
  /** Frames by train, filter and whole second, for those without identity. */
  private readonly places = new Map<string, Frame[]>();

  /** Adds a session's frames; all of one session are different, however similar their headers. */
  add(frames: readonly Frame[]): void {
    for (const frame of frames) {
      const identity = identityOf(frame);
      if (identity !== undefined && !this.identities.has(identity)) this.identities.set(identity, frame);
      const key = placeKey(frame, 0);
      const there = this.places.get(key);
      if (there) there.push(frame);
      else this.places.set(key, [frame]);
    }
  }

  /**
   * The counted frame equal to this one: by its identity; if either has none, by train, filter, begin and length.
   * Different identities are different frames.
   */
  find(frame: Frame): Frame | undefined {
    const identity = identityOf(frame);
    const known = identity === undefined ? undefined : this.identities.get(identity);
    if (known) return known;
    for (const shift of [0, -1, 1]) {
      const there = this.places
        .get(placeKey(frame, shift))
        ?.find(
          (other) =>
            (identity === undefined || identityOf(other) === undefined) &&
            Math.abs(other.exposure.startMs - frame.exposure.startMs) <= TOLERANCE_MS &&
            Math.abs(durationMs(other.exposure) - durationMs(frame.exposure)) <= TOLERANCE_MS,
        );
      if (there) return there;
    }
    return undefined;
  }
}

/** SHA-256 over the header's cards; `undefined` where no header is known. */
function identityOf({ header }: Frame): string | undefined {
  return header === undefined || header.headerHash === '' ? undefined : header.headerHash;
}

function placeKey({ train, filter, exposure }: Frame, shift: number): string {
  return JSON.stringify([train, filter?.toLowerCase(), Math.floor(exposure.startMs / 1000) + shift]);
}

/** Within one session: the same train's frames with one identity are copies of one file. The first stays. */
export function withoutCopies(frames: readonly Frame[]): readonly Frame[] {
  const seen = new Set<string>();
  const kept = frames.filter((frame) => {
    const identity = identityOf(frame);
    if (identity === undefined) return true;
    const key = JSON.stringify([frame.train, identity]);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
  return kept.length === frames.length ? frames : kept;
}
