import { partitionPoint, type SkyFacts } from '../model/index.js';
import type { Conditions } from './course.js';
import type { SimulatedExposure } from './running-train.js';

/** Target and Sun at mid-exposure, linear between the points of the curve; `null` outside of it. */
export function skyAt(
  { startMs, endMs, target }: Pick<SimulatedExposure, 'startMs' | 'endMs' | 'target'>,
  { curves, sunLimitDeg }: Pick<Conditions, 'curves' | 'sunLimitDeg'>,
): SkyFacts | null {
  const points = target === undefined ? undefined : curves.get(target);
  if (points === undefined) return null;
  const atMs = (startMs + endMs) / 2;
  const next = partitionPoint(points, (p) => p.atMs > atMs);
  const before = points[next - 1];
  if (before === undefined) return null;
  const after = points[next];
  if (after === undefined && before.atMs < atMs) return null;
  const share = after === undefined ? 0 : (atMs - before.atMs) / (after.atMs - before.atMs);
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
