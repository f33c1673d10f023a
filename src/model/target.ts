/** A thing in the sky that is imaged. J2000 / ICRS, degrees. */
export interface Target {
  readonly name: string;
  readonly aliases: readonly string[];
  readonly raDeg: number;
  readonly decDeg: number;
  /** Where the coordinates stand. */
  readonly origin: 'rig-file' | 'headers';
}

/** Observing site. Degrees, east positive; metres above the ellipsoid. */
export interface Site {
  readonly name: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** Absent: stated nowhere; see {@link elevationOf}. */
  readonly elevationM?: number;
  /** IANA time zone for display and for the night's noon. */
  readonly timezone: string;
  /** Altitude below which a target counts as low, degrees. */
  readonly minimumAltitudeDeg: number;
  /** Local horizon as `[azimuth, altitude]` degrees, sorted by azimuth; empty when none is given. */
  readonly horizon: readonly (readonly [number, number])[];
}

/**
 * The elevation to compute with, metres: sea level where none is stated, which the report says. A thousand metres move
 * refraction at the horizon by a twentieth of a degree, and extinction by some hundredths of a magnitude an air mass.
 */
export function elevationOf({ elevationM }: Pick<Site, 'elevationM'>): number {
  return elevationM ?? 0;
}
