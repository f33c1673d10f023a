/**
 * Second images that stand in most frames of a train at the same place and as bright: reflections inside the optics,
 * not moves of the mount.
 */
import { groupBy } from '../model/index.js';
import type { MeasuredLight } from './pointing/index.js';

/** Common practice, no source. */
const FRAMES_MIN = 4;
const FRAMES_SHARE = 0.5;
const SAME_PX = 2.5;
/** The light of a reflection varies less than this, a dither's with its time in the exposure. */
const ALIKE = 1.5;

/** The lights, without second images that belong to the optics. */
export function withoutReflections(lights: readonly MeasuredLight[]): readonly MeasuredLight[] {
  const always = new Set<MeasuredLight>();
  for (const train of groupBy(lights, ({ frame }) => frame.train).values()) {
    const doubled = train.flatMap((light) => (light.measured.stars.doubled === undefined ? [] : [light]));
    for (const one of doubled) {
      const like = doubled.filter((other) => isSame(one, other));
      if (like.length >= Math.max(FRAMES_MIN, FRAMES_SHARE * train.length)) always.add(one);
    }
  }
  if (always.size === 0) return lights;
  return lights.map((light) => (always.has(light) ? { ...light, measured: withoutSecond(light.measured) } : light));
}

function withoutSecond(measured: MeasuredLight['measured']): MeasuredLight['measured'] {
  const { doubled: _, ...stars } = measured.stars;
  return { ...measured, stars };
}

function isSame(a: MeasuredLight, b: MeasuredLight): boolean {
  const one = a.measured.stars.doubled;
  const other = b.measured.stars.doubled;
  if (one === undefined || other === undefined) return false;
  const apart = Math.hypot(one.x - other.x, one.y - other.y);
  return apart < SAME_PX && one.share < ALIKE * other.share && other.share < ALIKE * one.share;
}
