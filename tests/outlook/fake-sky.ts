/**
 * A sky of straight lines for tests of the outlook: the Sun is down for a number of hours about midnight, the Moon and
 * the target are up between hours that the test names. Hours count from local noon.
 */
import { interval } from '../../src/model/index.js';
import type { SkyAhead } from '../../src/outlook/index.js';

const HOUR = 3_600_000;

export interface FakeNight {
  readonly darkHours: number;
  /** Hours from noon between which each is up; absent: never. */
  readonly target?: readonly [number, number];
  readonly moon?: readonly [number, number];
  readonly separationDeg?: number;
}

/** Altitude that rises through zero at one hour and falls through it at another, one degree a minute about them. */
const tent = (hour: number, up: readonly [number, number] | undefined): number =>
  up === undefined ? -60 : 60 * Math.min(hour - up[0], up[1] - hour);

/** The sky of nights that differ by their date. */
export function fakeSky(nightOf: (date: string) => FakeNight): SkyAhead {
  return {
    span: (date) => {
      const noonMs = Date.parse(`${date}T12:00:00Z`);
      return interval(noonMs, noonMs + 24 * HOUR);
    },
    at(atMs) {
      const date = new Date(atMs - 12 * HOUR).toISOString().slice(0, 10);
      const hour = (atMs - Date.parse(`${date}T12:00:00Z`)) / HOUR;
      const night = nightOf(date);
      return {
        sunAltitudeDeg: -12 - tent(hour, [12 - night.darkHours / 2, 12 + night.darkHours / 2]),
        moonAltitudeDeg: tent(hour, night.moon),
        moonIllumination: 0.5,
        look: () => ({ clearanceDeg: tent(hour, night.target), moonSeparationDeg: night.separationDeg ?? 90 }),
      };
    },
  };
}
