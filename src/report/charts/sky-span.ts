import { clip, hull, interval, type Interval, type Night } from '../../model/index.js';
import { skyBands } from '../timeline/sky-band.js';

const HALF_HOUR = 1_800_000;

/** What the charts of the sky show: from sunset to sunrise, half an hour more at both ends, as far as there are curves; and all that was imaged. */
export function skySpan(night: Night): Interval {
  const {
    sky: { almanac: sky },
  } = night;
  const sun =
    sky !== null && sky.sunsetMs !== null && sky.sunriseMs !== null && sky.sunriseMs > sky.sunsetMs
      ? interval(sky.sunsetMs - HALF_HOUR, sky.sunriseMs + HALF_HOUR)
      : night.span;
  const drawn = night.sky.curves.flatMap(({ points }): Interval[] => {
    const [first, last] = [points[0], points[points.length - 1]];
    return first && last ? [interval(first.atMs, last.atMs)] : [];
  });
  return (
    hull([night.sky.window, ...clip(drawn, sun), ...night.accounts.lights.map((frame) => frame.exposure)]) ??
    night.sky.window
  );
}

/** What the charts of the trains show: the window and all that was imaged. */
export function workSpan(night: Night): Interval {
  const all = hull([night.sky.window, ...night.accounts.lights.map((frame) => frame.exposure)]) ?? night.sky.window;
  const air = Math.round((all.endMs - all.startMs) * 0.01);
  return interval(all.startMs - air, all.endMs + air);
}

/** The sky's brightness as backdrop areas. */
export function skyShades(night: Night, span: Interval): { span: Interval; colour: string }[] {
  return night.sky.almanac === null ? [] : skyBands(night.sky.almanac, span);
}

/** From the first light to the last, with a little air: what is not imaged has no stars. */
export function imagedSpan(night: Night): Interval {
  const all = hull(night.accounts.lights.map((frame) => frame.exposure)) ?? night.sky.window;
  const air = Math.round((all.endMs - all.startMs) * 0.02);
  return interval(all.startMs - air, all.endMs + air);
}
