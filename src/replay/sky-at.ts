import { partitionPoint, type SkyFacts } from '../model/index.js';
import type { Conditions } from './course.js';

/**
 * Target and Sun at an instant, linear between the points of the curve and as at its end beyond it; `null` where there
 * is none.
 */
export function skyAt(
  target: string | undefined,
  atMs: number,
  { curves, sunLimitDeg }: Pick<Conditions, 'curves' | 'sunLimitDeg'>,
): SkyFacts | null {
  const points = target === undefined ? undefined : curves.get(target);
  if (points === undefined) return null;
  const next = partitionPoint(points, (p) => p.atMs > atMs);
  const before = points[next - 1] ?? points[0];
  if (before === undefined) return null;
  const after = points[next];
  const share = after === undefined || after === before ? 0 : (atMs - before.atMs) / (after.atMs - before.atMs);
  const later = after ?? before;
  return {
    altitudeDeg: between(before.altitudeDeg, later.altitudeDeg, share),
    limitDeg: between(before.limitDeg, later.limitDeg, share),
    sunAltitudeDeg: between(before.sunAltitudeDeg, later.sunAltitudeDeg, share),
    sunLimitDeg: sunLimitDeg ?? Infinity,
  };
}

function between(from: number, to: number, share: number): number {
  return from + share * (to - from);
}
