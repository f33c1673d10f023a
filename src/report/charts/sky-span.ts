import { hull, interval, intersect, type Interval, type Night } from '../../model/index.js';
import { skyBands } from '../timeline/sky-band.js';

const HALF_HOUR = 1_800_000;

/** What the charts of the sky show: sunset to sunrise and all that was imaged, with half an hour at both ends. */
export function skySpan(night: Night): Interval {
  const { sky } = night;
  const sun = sky !== null && sky.sunsetMs !== null && sky.sunriseMs !== null && sky.sunriseMs > sky.sunsetMs ? [interval(sky.sunsetMs, sky.sunriseMs)] : [];
  const all = hull([night.window, ...sun, ...night.frames.map((frame) => frame.exposure)]) ?? night.window;
  return intersect(interval(all.startMs - HALF_HOUR, all.endMs + HALF_HOUR), night.span) ?? all;
}

/** What the charts of the trains show: the window and all that was imaged. */
export function workSpan(night: Night): Interval {
  const all = hull([night.window, ...night.frames.map((frame) => frame.exposure)]) ?? night.window;
  const air = Math.round((all.endMs - all.startMs) * 0.01);
  return interval(all.startMs - air, all.endMs + air);
}

/** The sky's brightness as backdrop areas. */
export function skyShades(night: Night, span: Interval): { span: Interval; colour: string }[] {
  return night.sky === null ? [] : skyBands(night.sky, span);
}
