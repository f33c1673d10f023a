import type { Interval } from '../model/index.js';

/** What the outlook asks of the sky; the sky itself is another stage's, and is handed in. */
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
  /** How far a place stands above its limit, and from the Moon. */
  look(place: Place): { readonly clearanceDeg: number; readonly moonSeparationDeg: number };
}

/** J2000 / ICRS, degrees. */
export interface Place {
  readonly raDeg: number;
  readonly decDeg: number;
}
