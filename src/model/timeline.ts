import type { Activity } from './activity.js';
import type { ClockNote } from './clock.js';
import type { Frame } from './frame.js';
import type { Source } from './source.js';
import type { Target } from './target.js';
import type { Warning } from './warning.js';

/** A camera temperature reading from a log. */
export interface CoolerReading {
  readonly atMs: number;
  readonly train: string;
  readonly setpointC?: number;
  readonly temperatureC?: number;
  readonly source: Source;
}

/** What happened when, on one clock. */
export interface Timeline {
  /** Every exposure of every train, of any kind, sorted by start. */
  readonly frames: readonly Frame[];
  /** Calibration frames from other dates: they calibrate this night and are not on its timeline. */
  readonly library: readonly Frame[];
  /** Sorted by start. */
  readonly activities: readonly Activity[];
  /** Targets imaged on this night. */
  readonly targets: readonly Target[];
  readonly coolers: readonly CoolerReading[];
  readonly clocks: readonly ClockNote[];
  /** There is no event log: gaps are inferred. */
  readonly headersOnly: boolean;
  readonly warnings: readonly Warning[];
}
