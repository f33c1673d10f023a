/** Rotation of the field through the night, and what it implies for the polar axis. */
import type { Aim, FieldRotation, SensorSize } from '../../model/index.js';
import { median } from '../../model/index.js';
import { middleMs } from './aim.js';
import { sharedSlope } from './robust-slope.js';

const HOUR_MS = 3_600_000;
/** The sky's rotation, degrees per hour. */
export const SIDEREAL_DEG_PER_HOUR = 15.041067;
const RADIANS = Math.PI / 180;
const FEWEST_FRAMES = 6;
/** Closer to the pole the small-angle approximation fails. */
const NORTHERNMOST_DEG = 85;

/**
 * Rotation of the field from the registrations of one train. Both sides of the pier have separate offsets and share the
 * rate: a flip rotates the sensor but not the sense of rotation. `null` with fewer than six frames.
 *
 * @param declinationDeg of the target; `null` when unknown
 */
export function fieldRotation(
  aims: readonly Aim[],
  size: SensorSize,
  declinationDeg: number | null,
): FieldRotation | null {
  if (aims.length < FEWEST_FRAMES) return null;
  const inTime = [...aims].sort((a, b) => a.startMs - b.startMs || (a.key < b.key ? -1 : 1));
  const sides = [false, true].map((flipped) =>
    inTime.filter((a) => a.flipped === flipped).map((a) => ({ t: middleMs(a) / HOUR_MS, value: a.rotationDeg })),
  );
  const rate = sharedSlope(sides);
  if (!rate) return null;
  const subSeconds = median(aims.map((a) => a.seconds));
  const reachPx = Math.hypot(size.width, size.height) / 2;
  const isNearPole = declinationDeg !== null && Math.abs(declinationDeg) > NORTHERNMOST_DEG;
  const known = declinationDeg === null || isNearPole ? null : declinationDeg;
  return {
    degPerHour: rate.slope,
    uncertaintyDegPerHour: rate.uncertainty,
    frames: aims.length,
    cornerTrailPx: (Math.abs(rate.slope) * RADIANS * reachPx * subSeconds) / 3600,
    subSeconds,
    polarErrorAtLeastArcmin: known === null ? null : polarErrorAtLeastArcmin(rate.slope, known),
    uncertaintyArcmin: known === null ? null : polarErrorAtLeastArcmin(rate.uncertainty, known),
  };
}

/**
 * The minimum polar error that rotates a guided field this fast, arcmin. With the mount's pole off by ρ towards hour
 * angle Hp, a star at hour angle H and declination δ sees the two poles under the angle ρ·sin(H − Hp)/cos δ, so that
 * the field rotates by ρ·ω·cos(H − Hp)/cos δ: at most ρ·ω/cos δ (derived here). That is the relation of R. N. Hook 1989
 * (J. Br. Astron. Assoc. 99, 19), trail = ρ·ω·t·F·A/cos δ at the angle A from the guide star with focal length F (from
 * memory; its printed constant was not seen).
 *
 * Limits: small angles, so not within 5° of the pole; only the part of the error that counts at that hour angle shows;
 * refraction, a slipping camera and flexure turn fields as well.
 */
export function polarErrorAtLeastArcmin(degPerHour: number, declinationDeg: number): number {
  return (60 * Math.abs(degPerHour) * Math.cos(declinationDeg * RADIANS)) / (SIDEREAL_DEG_PER_HOUR * RADIANS);
}
