import type { Interval } from '../model/index.js';

/** The sky queries of the outlook; the sky itself is another stage's, and is passed in. */
export interface SkyAhead {
  /** Local noon to local noon, by the evening's date. */
  span(date: string): Interval;
  /** The sky at an instant, UTC ms. */
  at(atMs: number): SkyThen;
}

/** Sun, Moon and targets at one instant; degrees. */
export interface SkyThen {
  readonly sunAltitudeDeg: number;
  readonly moonAltitudeDeg: number;
  /** Illuminated fraction, 0…1. */
  readonly moonIllumination: number;
  /** A position's altitude relative to its limit, and distance from the Moon. */
  look(place: Place): { readonly clearanceDeg: number; readonly moonSeparationDeg: number };
}

/** J2000 / ICRS, degrees. */
export interface Place {
  readonly raDeg: number;
  readonly decDeg: number;
}
