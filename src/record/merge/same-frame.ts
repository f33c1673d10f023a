/**
 * When two records of a frame are of the same frame.
 */
import type { FrameRecord } from '../schema.js';

/** Log and header put the same exposure this far apart at most, ms. */
const BEGIN_TOLERANCE_MS = 1000;
const SECONDS_TOLERANCE = 1;

/** The frames counted so far, by all that tells one again. */
export class FrameBook {
  private readonly identities = new Set<string>();
  /** Frames by train, filter and whole second, for those that have no identity. */
  private readonly places = new Map<string, FrameRecord[]>();

  /** Adds a session's frames; all of one session are different, however alike their headers. */
  add(frames: readonly FrameRecord[]): void {
    for (const frame of frames) {
      if (frame.identity !== undefined) this.identities.add(frame.identity);
      const key = placeKey(frame, 0);
      const there = this.places.get(key);
      if (there) there.push(frame);
      else this.places.set(key, [frame]);
    }
  }

  /**
   * Whether the frame is counted already: by its identity; where either has none, by train, filter, begin and length.
   * Two identities that differ are two frames.
   */
  has(frame: FrameRecord): boolean {
    if (frame.identity !== undefined && this.identities.has(frame.identity)) return true;
    const beginMs = Date.parse(frame.begin);
    return [-1, 0, 1].some((shift) =>
      (this.places.get(placeKey(frame, shift)) ?? []).some(
        (other) =>
          (frame.identity === undefined || other.identity === undefined) &&
          Math.abs(Date.parse(other.begin) - beginMs) <= BEGIN_TOLERANCE_MS &&
          Math.abs(other.seconds - frame.seconds) <= SECONDS_TOLERANCE,
      ),
    );
  }
}

function placeKey(frame: FrameRecord, shift: number): string {
  return `${frame.train}\n${(frame.filter ?? '').toLowerCase()}\n${Math.floor(Date.parse(frame.begin) / 1000) + shift}`;
}

/** Within one session: the same train's frames of one identity are copies of one file. The first stays. */
export function withoutCopies(frames: readonly FrameRecord[]): readonly FrameRecord[] {
  const seen = new Set<string>();
  const kept = frames.filter(({ identity, train }) => {
    if (identity === undefined) return true;
    const key = `${train}\n${identity}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
  return kept.length === frames.length ? frames : kept;
}
