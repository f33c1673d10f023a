import {
  DARKNESS_KINDS,
  durationMs,
  intersect,
  interval,
  overlapMs,
  SUNSET_ALTITUDE_DEG,
  TWILIGHTS,
  type DarknessKind,
} from '../model/index.js';
import type { DarkWindow, Interval, Site } from '../model/index.js';
import { observerOf } from './position.js';
import type { SkyObserver } from './position.js';
import { lowest, stretchesFromZero } from './stretches.js';
import type { Sample } from './stretches.js';

/** The possible bounds of the dark time. */
export type DarknessBound = DarknessKind | 'sunset';
const FROM_DARKEST: readonly DarknessBound[] = [...DARKNESS_KINDS.toReversed(), 'sunset'];

/** True altitude of the Sun's centre at a bound, degrees. */
function sunAltitudeDeg(bound: DarknessBound): number {
  return bound === 'sunset' ? SUNSET_ALTITUDE_DEG : TWILIGHTS[bound].sunAltitudeDeg;
}

const SAMPLE_STEP_MS = 10 * 60_000;
/** Half the window around the Sun's minimum when the Sun does not set. */
const MIDNIGHT_SUN_HALF_MS = 3 * 3_600_000;

/**
 * The parts of a span in which the Sun's centre is at or below a bound's altitude, UTC ms, edges to the millisecond of
 * the model (itself good to about a second in mid-latitudes).
 */
export function darkStretches(observer: SkyObserver, span: Interval, bound: DarknessBound): Interval[] {
  const limitDeg = sunAltitudeDeg(bound);
  return stretchesFromZero((atMs) => limitDeg - observer.at(atMs).sun.altitudeDeg, span, SAMPLE_STEP_MS);
}

/**
 * The window of a night for the ledger: from the evening's passage of the Sun through the requested twilight to the
 * morning's.
 *
 * If that darkness does not come, the next lighter one that does is used, down to sunset; if the Sun does not even set,
 * the window is the time of activity, or without one the three hours either side of the Sun's minimum. If the Sun stays
 * below the limit from noon to noon, the window is the whole span. In each case `note` says so. Of two dark intervals
 * in one span the one with more of the activity counts, then the longer.
 *
 * @param where the site or an observer of it
 * @param span the night, local noon to local noon
 * @param asked the twilight that bounds darkness
 * @param activity when frames were taken, if known
 */
export function darkWindow(
  where: Site | SkyObserver,
  span: Interval,
  asked: DarknessKind,
  activity?: Interval,
): DarkWindow {
  const observer = observerOf(where);
  const minimum = lowest((atMs) => observer.at(atMs).sun.altitudeDeg, span, SAMPLE_STEP_MS);
  const facts = { asked, sunMinimumDeg: minimum.value, sunMinimumMs: minimum.atMs };

  for (const kind of FROM_DARKEST.slice(FROM_DARKEST.indexOf(asked))) {
    const dark = mainStretch(darkStretches(observer, span, kind), activity);
    if (!dark) continue;
    const notes = [
      ...(kind === asked ? [] : [`${missing(asked, minimum)} The window runs from ${from(kind)} instead.`]),
      ...cutNote(dark, span, kind),
    ];
    return { ...facts, span: dark, kind, ...(notes.length > 0 && { note: notes.join(' ') }) };
  }

  const active = activity && intersect(activity, span);
  const around = intersect(interval(minimum.atMs - MIDNIGHT_SUN_HALF_MS, minimum.atMs + MIDNIGHT_SUN_HALF_MS), span);
  const choice = active
    ? 'The window is the time of activity instead.'
    : 'The window is the three hours either side of that instead.';
  return {
    ...facts,
    span: active ?? around ?? span,
    kind: 'sun-minimum',
    note: `The Sun does not set this night: its lowest altitude is ${degrees(minimum.value)}. ${choice}`,
  };
}

function mainStretch(stretches: readonly Interval[], activity: Interval | undefined): Interval | null {
  const active = (stretch: Interval): number => (activity ? overlapMs(stretch, activity) : 0);
  const [first] = [...stretches].sort((a, b) => active(b) - active(a) || durationMs(b) - durationMs(a));
  return first ?? null;
}

function missing(asked: DarknessKind, minimum: Sample): string {
  const name = asked.charAt(0).toUpperCase() + asked.slice(1);
  return (
    `${name} darkness (Sun below ${degrees(sunAltitudeDeg(asked), 0)}) is not reached this night: ` +
    `the Sun's lowest altitude is ${degrees(minimum.value)}.`
  );
}

function from(kind: DarknessBound): string {
  return kind === 'sunset'
    ? 'sunset to sunrise'
    : `${kind} dusk to ${kind} dawn (Sun below ${degrees(sunAltitudeDeg(kind), 0)})`;
}

function cutNote(dark: Interval, span: Interval, kind: DarknessBound): string[] {
  const darkAtStart = dark.startMs === span.startMs;
  const darkAtEnd = dark.endMs === span.endMs;
  const state = kind === 'sunset' ? 'below the horizon' : `below ${degrees(sunAltitudeDeg(kind), 0)}`;
  if (darkAtStart && darkAtEnd) return [`The Sun stays ${state} from noon to noon: the window is the whole span.`];
  if (darkAtStart) return [`The Sun is already ${state} at the first noon: the window is cut off there.`];
  if (darkAtEnd) return [`The Sun is still ${state} at the second noon: the window is cut off there.`];
  return [];
}

function degrees(value: number, decimals = 1): string {
  return `${value.toFixed(decimals).replace('-', '−')}°`;
}
