/**
 * Limits on numbers and names read from outside. Readers check these and report violations, so that neither slips nor
 * malice can overload later stages.
 */

/** Limits of a number, inclusive. */
export interface Bounds {
  readonly from: number;
  readonly to: number;
}

/** Lengths of exposures, seconds: a day holds the longest. */
export const EXPOSURE_SECONDS: Bounds = { from: 0, to: 86_400 };
/** Temperatures of air, glass and sensors, °C: from absolute zero to the boiling of water. */
export const TEMPERATURE_C: Bounds = { from: -273.15, to: 100 };
/** Movements and sizes on a sensor, pixels: no sensor is wider. */
export const PIXELS: Bounds = { from: 0, to: 100_000 };
/** Positions of a focuser, steps or micrometres. */
export const FOCUS_POSITION: Bounds = { from: -1e9, to: 1e9 };
/** Guiding errors, arcseconds: ten degrees is not guiding. */
export const GUIDING_ARCSEC: Bounds = { from: -36_000, to: 36_000 };
/** Signal to noise of a star. */
export const SIGNAL_TO_NOISE: Bounds = { from: 0, to: 1e6 };
/** Levels and fluxes of a frame, ADU summed over all its pixels at most. */
export const FLUX: Bounds = { from: 0, to: 1e15 };
/** Counts of things found in one frame. */
export const COUNT: Bounds = { from: 0, to: 1e8 };
/** Hours wanted or spent on a target. */
export const HOURS: Bounds = { from: 0, to: 100_000 };

/** Trains on one mount, or in one night's headers: two are usual. */
export const MOST_TRAINS = 24;
/** Targets of one night: a marathon through a catalogue has a hundred. */
export const MOST_TARGETS = 500;
/** Filters of one night, of all trains. */
export const MOST_FILTERS = 100;
/** Targets in a list of goals. */
export const MOST_GOALS = 5000;
/** Event lines of logs in one night; a night of a thousand subs an hour writes fewer. */
export const MOST_EVENTS = 100_000;
/** Frames of one night, of all trains: one a second from dusk to dawn. */
export const MOST_FRAMES = 50_000;

/** Digital cameras on telescopes are younger than this, and no clock is a lifetime ahead: UTC ms, and years. */
export const EARLIEST_YEAR = 1990;
export const LATEST_YEAR = 2099;
const EARLIEST_MS = Date.UTC(EARLIEST_YEAR, 0, 1);
const BEYOND_MS = Date.UTC(LATEST_YEAR + 1, 0, 1);

/** Whether an instant, UTC ms, can be that of an observation. */
export function isPlausibleInstant(ms: number): boolean {
  return ms >= EARLIEST_MS && ms < BEYOND_MS;
}

/** Whether a number lies in a range; NaN lies in none. */
export function isWithin(value: number, { from, to }: Bounds): boolean {
  return value >= from && value <= to;
}

/** Names of targets, filters, trains, sites: longer ones are cut, characters. */
export const MAX_NAME = 200;
/** Free text of logs and of what we write ourselves, characters. */
export const MAX_TEXT = 4000;

/** A text of at most this many characters, with an ellipsis if truncated; surrogate pairs are not split. */
export function clipped(text: string, most = MAX_NAME): string {
  if (text.length <= most) return text;
  return `${text.slice(0, most - 1).replace(/[\uD800-\uDBFF]$/, '')}…`;
}
