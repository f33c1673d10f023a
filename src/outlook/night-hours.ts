/** Hours of one night in which targets are above their limit in darkness, with and without the Moon. */
import {
  clip,
  coveredMs,
  interval,
  moonDistanceShare,
  subtract,
  type Interval,
  type NightHours,
} from '../model/index.js';
import type { Place, SkyAhead, SkyThen } from './sky-ahead.js';

/** At night altitudes are interpolated linearly over half an hour, which places a crossing within a minute. */
const STEP_MS = 30 * 60_000;
/** By day the Sun is sampled once per hour, until this close to darkness, degrees. */
const TWILIGHT_DEG = 6;
const HOUR = 3_600_000;

export interface HourLimits {
  /** Darkness: the Sun's centre below this altitude, degrees. */
  readonly sunBelowDeg: number;
  /** A full Moon counts as far beyond this separation, a smaller one sooner; degrees. */
  readonly moonSeparationDeg: number;
  readonly deepRedSeparationDeg: number;
}

/** One night, for all targets at once: Sun and Moon are the same for each. */
export interface NightAhead {
  readonly date: string;
  readonly darkHours: number;
  /** Darkness with the Moon below the horizon. */
  readonly moonlessHours: number;
  /** At the Sun’s lowest. */
  readonly moonIllumination: number;
  /** In the order of the places. */
  readonly targets: readonly NightHours[];
}

interface Sample {
  readonly atMs: number;
  readonly value: number;
}

/** Computes one night's hours. */
export function nightAhead(
  sky: SkyAhead,
  date: string,
  places: readonly Place[],
  { sunBelowDeg, moonSeparationDeg, deepRedSeparationDeg }: HourLimits,
): NightAhead {
  const skies = skiesOf(sky, date, sunBelowDeg);
  const dark = stretchesAbove(skies.map(({ atMs, sunDeg }) => ({ atMs, value: sunBelowDeg - sunDeg })));
  // Only the surroundings of darkness are sampled: by day neither Moon nor target matters.
  const night = skies.filter(({ sunDeg }, i) =>
    [skies[i - 1]?.sunDeg, sunDeg, skies[i + 1]?.sunDeg].some((deg) => deg !== undefined && deg < sunBelowDeg),
  );
  const moonUp = stretchesAbove(night.map(({ atMs, then }) => ({ atMs, value: then.moonAltitudeDeg })));
  const middle = skies.reduce((a, b) => (b.sunDeg < a.sunDeg ? b : a));
  const asked = moonDistanceShare(middle.then.moonIllumination);
  const targets = places.map((place): NightHours => {
    // Listed one by one: copying the object takes as long as the computation.
    const looks = night.map(({ atMs, then }) => {
      const { clearanceDeg, moonSeparationDeg: apart } = then.look(place);
      return { atMs, clearanceDeg, apart };
    });
    const up = common(dark, stretchesAbove(looks.map(({ atMs, clearanceDeg }) => ({ atMs, value: clearanceDeg }))));
    const beyond = (deg: number): number => {
      const far = looks.map(({ atMs, apart }) => ({ atMs, value: apart - deg * asked }));
      return hours(common(common(up, moonUp), stretchesAbove(far)));
    };
    return {
      date,
      dark: hours(dark),
      up: hours(up),
      moonless: hours(subtract(up, moonUp)),
      farMoon: beyond(moonSeparationDeg),
      deepRedMoon: beyond(deepRedSeparationDeg),
    };
  });
  return {
    date,
    darkHours: hours(dark),
    moonlessHours: hours(subtract(dark, moonUp)),
    moonIllumination: middle.then.moonIllumination,
    targets,
  };
}

interface SkyAt {
  readonly atMs: number;
  readonly then: SkyThen;
  readonly sunDeg: number;
}

/** The sky through a night: every hour, and every half hour where it is dark or nearly so. */
function skiesOf(sky: SkyAhead, date: string, sunBelowDeg: number): [SkyAt, ...SkyAt[]] {
  const look = (atMs: number): SkyAt => {
    const then = sky.at(atMs);
    return { atMs, then, sunDeg: then.sunAltitudeDeg };
  };
  const isNearDark = ({ sunDeg }: SkyAt): boolean => sunDeg < sunBelowDeg + TWILIGHT_DEG;
  const { startMs, endMs } = sky.span(date);
  const skies: [SkyAt, ...SkyAt[]] = [look(startMs)];
  for (let atMs = startMs + HOUR; atMs <= endMs; atMs += HOUR) {
    const [before, next] = [skies.at(-1), look(atMs)];
    if (isNearDark(next) || (before && isNearDark(before))) skies.push(look(atMs - STEP_MS));
    skies.push(next);
  }
  return skies;
}

/** The spans in which a sampled quantity is above zero, interpolated linearly. */
export function stretchesAbove(samples: readonly Sample[]): Interval[] {
  const stretches: Interval[] = [];
  let startMs: number | null = null;
  samples.forEach((sample, i) => {
    const before = samples[i - 1];
    const isUp = sample.value > 0;
    if (before === undefined) {
      startMs = isUp ? sample.atMs : null;
    } else if (isUp !== before.value > 0) {
      const atMs = Math.round(
        before.atMs + ((sample.atMs - before.atMs) * before.value) / (before.value - sample.value),
      );
      if (startMs !== null) stretches.push(interval(startMs, atMs));
      startMs = startMs === null ? atMs : null;
    }
  });
  const last = samples.at(-1);
  if (startMs !== null && last) stretches.push(interval(startMs, last.atMs));
  return stretches;
}

function common(a: readonly Interval[], b: readonly Interval[]): Interval[] {
  return b.flatMap((span) => clip(a, span));
}

function hours(spans: readonly Interval[]): number {
  return coveredMs(spans) / HOUR;
}
