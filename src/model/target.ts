/** An object that is imaged. J2000 / ICRS, degrees. */
export interface Target {
  readonly name: string;
  readonly aliases: readonly string[];
  readonly raDeg: number;
  readonly decDeg: number;
  /** The source of the coordinates. */
  readonly origin: 'rig-file' | 'headers';
}

/** Observing site. Degrees, east positive; metres above the ellipsoid. */
export interface Site {
  readonly name: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** Absent: not stated; see {@link elevationOf}. */
  readonly elevationM?: number;
  /** IANA time zone for display and for the night's noon. */
  readonly timezone: string;
  /** Altitude below which a target counts as low, degrees. */
  readonly minimumAltitudeDeg: number;
  /** Local horizon as `[azimuth, altitude]` degrees, sorted by azimuth; empty when none is given. */
  readonly horizon: readonly (readonly [number, number])[];
}

/**
 * The elevation for computations, metres: sea level if none is stated, which the report notes. A thousand metres change
 * refraction at the horizon by a twentieth of a degree, and extinction by some hundredths of a magnitude per air mass.
 */
export function elevationOf({ elevationM }: Pick<Site, 'elevationM'>): number {
  return elevationM ?? 0;
}
