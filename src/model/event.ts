import type { Source } from './source.js';

/**
 * Events of nightledger's own log, and what dialects turn other programs' lines into.
 * The names are nouns of the imaging trade; unknown ones are kept as `note`.
 */
export const EVENT_NAMES = [
  'exposure-begin',
  'exposure-end',
  'exposure-abort',
  'frame-saved',
  'dither-ready',
  'dither-begin',
  'dither-end',
  'settle-begin',
  'settle-end',
  'focus-begin',
  'focus-end',
  'filter-begin',
  'filter-end',
  'slew-begin',
  'slew-end',
  'centre-begin',
  'centre-end',
  'flip-begin',
  'flip-end',
  'guiding-begin',
  'guiding-end',
  'guiding-pause',
  'guiding-resume',
  'star-lost',
  'star-found',
  'hold-begin',
  'hold-end',
  'cooler',
  'note',
] as const;
export type EventName = (typeof EVENT_NAMES)[number];

/** Facts an event may carry. Seconds, arcseconds, °C, focuser steps, pixels of star size. */
export interface EventFields {
  readonly filter?: string;
  readonly target?: string;
  /** Exposure asked for, seconds. */
  readonly seconds?: number;
  /** File name or path as the log prints it. */
  readonly file?: string;
  /** Dither distance in pixels of the guide camera. */
  readonly pixels?: number;
  readonly ok?: boolean;
  readonly why?: string;
  readonly to?: string;
  readonly sizeBefore?: number;
  readonly sizeAfter?: number;
  readonly position?: number;
  readonly temperature?: number;
  readonly setpoint?: number;
  readonly text?: string;
}

/** One thing that happened, at one instant. */
export interface LogEvent extends EventFields {
  /** UTC milliseconds since the epoch, as the writing computer's clock had it. */
  readonly atMs: number;
  readonly event: EventName;
  /** The train whose log said so; absent for logs of no train (a guide computer, say). */
  readonly train?: string;
  readonly source: Source;
}
