import { normaliseDegrees, type Site } from '../model/index.js';

/**
 * The altitude a target must exceed at an azimuth, degrees: the site's horizon there or its minimum altitude, whichever
 * is higher.
 *
 * Linear between the horizon's points, wrapping at north. Two points at one azimuth are a wall: the later one applies
 * from that azimuth on.
 *
 * @param azimuthDeg degrees from north through east, any turn
 */
export function limitAt(site: Pick<Site, 'horizon' | 'minimumAltitudeDeg'>, azimuthDeg: number): number {
  const { horizon, minimumAltitudeDeg } = site;
  const azimuth = normaliseDegrees(azimuthDeg);
  const next = horizon.findIndex(([at]) => at > azimuth);
  const after = next === -1 ? horizon[0] : horizon[next];
  const before = horizon.at(next - 1 < 0 ? -1 : next - 1);
  if (!after || !before) return minimumAltitudeDeg;
  // The last segment closes the ring across north.
  const from = next === 0 ? before[0] - 360 : before[0];
  const to = next === -1 ? after[0] + 360 : after[0];
  const share = (azimuth - from) / (to - from);
  return Math.max(minimumAltitudeDeg, before[1] + share * (after[1] - before[1]));
}
