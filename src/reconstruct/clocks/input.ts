/** The input for comparing the night's clocks. */
import type { HeaderFrame, LineTimes, TellingEvent } from '../../model/index.js';
import type { ClockOfSteps } from './by-steps.js';
import type { LightSky } from './daylight.js';

/** As written. */
export interface ClockInput {
  /** Train ids; the first is the pilot. */
  readonly trains: readonly string[];
  readonly headers: readonly (HeaderFrame & { readonly train: string })[];
  /** Events and lines of logs that belong to no train count as the pilot's. */
  readonly events: readonly TellingEvent[];
  readonly lineTimes: readonly LineTimes[];
  /** How far a train's computer is ahead according to the rig file (`clockOffset`), ms. */
  readonly byHandMs: ReadonlyMap<string, number>;
  /** Clock offsets from the trains' stars where nothing else determines them; absent before they are measured. */
  readonly bySteps?: ReadonlyMap<string, ClockOfSteps>;
  /** Whether no light can have been taken of a field at an instant, UTC ms; absent if the site is unknown. */
  readonly isImpossible?: LightSky;
  /** Whether there are guiding samples, whose order does not tell where a clock went back. */
  readonly isGuided?: boolean;
}
