import type { SkyFacts, SkyPosition } from '../model/index.js';
import type { Conditions } from './course.js';
import type { Writable } from './writable.js';

/**
 * Positions of targets and the Sun at the instants of a run. They are requested in chronological order, hundreds of
 * thousands of them for one night: the index on the curve is kept from one to the next, and so is the answer.
 */
export class SkyAt {
  private target: string | undefined;
  private points: readonly SkyPosition[] = [];
  /** The first point after the last requested instant. */
  private next = 0;
  private readonly facts: Writable<SkyFacts>;

  constructor(private readonly conditions: Pick<Conditions, 'curves' | 'sunLimitDeg'>) {
    this.facts = { altitudeDeg: 0, limitDeg: 0, sunAltitudeDeg: 0, sunLimitDeg: conditions.sunLimitDeg ?? Infinity };
  }

  /**
   * Target and Sun at an instant, linear between the points of the curve and as at its end beyond it.
   *
   * @returns the same object every time, with what holds for this instant; `null` where there is no curve
   */
  at(target: string | undefined, atMs: number): SkyFacts | null {
    if (target !== this.target) {
      this.target = target;
      this.points = (target === undefined ? undefined : this.conditions.curves.get(target)) ?? [];
      this.next = 0;
    }
    const { points, facts } = this;
    const next = (this.next = this.placeOf(atMs));
    const before = points[next - 1] ?? points[0];
    if (before === undefined) return null;
    const after = points[next];
    const share = after === undefined || after === before ? 0 : (atMs - before.atMs) / (after.atMs - before.atMs);
    const later = after ?? before;
    facts.altitudeDeg = between(before.altitudeDeg, later.altitudeDeg, share);
    facts.limitDeg = between(before.limitDeg, later.limitDeg, share);
    facts.sunAltitudeDeg = between(before.sunAltitudeDeg, later.sunAltitudeDeg, share);
    return facts;
  }

  /** Index of the first point after an instant, starting from the last one found. */
  private placeOf(atMs: number): number {
    const { points } = this;
    let { next } = this;
    while (next > 0 && (points[next - 1]?.atMs ?? -Infinity) > atMs) next--;
    while (next < points.length && (points[next]?.atMs ?? Infinity) <= atMs) next++;
    return next;
  }
}

function between(from: number, to: number, share: number): number {
  return from + share * (to - from);
}
