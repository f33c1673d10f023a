import { clip, contains, hull, intersect, interval, type Interval, type Night, imagedSpan } from '../../model/index.js';
import { skyBands } from '../timeline/sky-band.js';

const HALF_HOUR = 1_800_000;
const HOUR = 3_600_000;

/**
 * The whole night's sky: from sunset to sunrise, plus half an hour at both ends, as far as there are curves; and
 * everything imaged.
 */
function wholeSky(night: Night): Interval {
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
    hull([night.sky.window, ...clip(drawn, sun), imagedSpan(night.accounts.lights) ?? night.sky.window]) ??
    night.sky.window
  );
}

/**
 * The time range of the sky charts: the hours around what was imaged, so that a short session is not a fifth of its
 * charts; the whole night if nothing was imaged, or no curve reaches there.
 */
export function skySpan(night: Night): Interval {
  const whole = wholeSky(night);
  const imaged = imagedSpan(night.accounts.lights);
  if (imaged === null) return whole;
  const about = intersect(interval(imaged.startMs - HOUR, imaged.endMs + HOUR), whole);
  const isDrawn = night.sky.curves.some(({ points }) => about !== null && points.some((p) => contains(about, p.atMs)));
  return about !== null && isDrawn ? about : whole;
}

/** The time range of the train charts: everything imaged, with a small margin; the window if nothing was. */
export function workSpan(night: Night): Interval {
  const all = imagedSpan(night.accounts.lights) ?? night.sky.window;
  const air = Math.round((all.endMs - all.startMs) * 0.02);
  return interval(all.startMs - air, all.endMs + air);
}

/** The sky's brightness as backdrop areas. */
export function skyShades(night: Night, span: Interval): { span: Interval; colour: string }[] {
  return night.sky.almanac === null ? [] : skyBands(night.sky.almanac, span);
}
