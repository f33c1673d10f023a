/** Background marks of the star charts: whatever may have moved or dimmed the stars. */
import type { Interval, Night, SkyPosition } from '../../model/index.js';
import { backdrop } from './marks.js';
import type { ChartContext } from './chart.js';
import type { Mark } from './marks.js';
import { refocuses, refocusMarks } from './refocuses.js';

/** Periods without guiding, or with everything idle. */
export function interruptions(night: Night): Interval[] {
  return night.timeline.activities
    .filter(({ kind }) => kind === 'guiding-rest' || kind === 'star-gap' || kind === 'hold')
    .map(({ span }) => span);
}

/** When the Moon was above the horizon, according to the frames. */
export function moonUp(night: Night): Interval[] {
  const moon = night.sky.almanac?.moon;
  if (moon === undefined) return [];
  const known = night.accounts.lights.flatMap(({ sky }): SkyPosition[] => (sky === null ? [] : [sky]));
  const isUpFirst = (known[0]?.moonAltitudeDeg ?? -1) > 0;
  const { startMs, endMs } = night.span;
  if (moon.riseMs === null && moon.setMs === null) return isUpFirst ? [{ startMs, endMs }] : [];
  if (moon.riseMs === null) return [{ startMs, endMs: moon.setMs ?? endMs }];
  if (moon.setMs === null || moon.setMs > moon.riseMs) return [{ startMs: moon.riseMs, endMs: moon.setMs ?? endMs }];
  return [
    { startMs, endMs: moon.setMs },
    { startMs: moon.riseMs, endMs },
  ];
}

/**
 * Refocuses as vertical lines in their train's colour, interruptions as shaded areas, dithers as ticks at the bottom,
 * the Moon along the top.
 */
export function starMarks(night: Night, context: ChartContext): Mark[] {
  return [
    backdrop(interruptions(night).map((span) => ({ span, colour: 'rule' }))),
    { mark: 'dither-ticks', atMs: night.accounts.dithers.map(({ beginMs }) => beginMs) },
    { mark: 'moon-line', spans: moonUp(night) },
    refocusMarks(night, context),
  ];
}

/** The marks in words, for the end of an alternative text. */
export function marksText(night: Night): string {
  const parts = [
    [refocuses(night).length, 'refocus', 'refocuses'],
    [night.accounts.dithers.length, 'dither', 'dithers'],
    [interruptions(night).length, 'interruption', 'interruptions'],
  ] as const;
  const named = parts
    .filter(([count]) => count > 0)
    .map(([count, one, many]) => `${count} ${count === 1 ? one : many}`);
  return named.length === 0 ? 'Nothing is marked.' : `Marked: ${named.join(', ')}.`;
}
