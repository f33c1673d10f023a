import type { Site } from '../../src/model/index.js';

/** The invented observatory of the samples, with whatever a test needs changed. */
export function inventedSite(changes: Partial<Site> = {}): Site {
  return {
    name: 'Cierzo Hill',
    latitudeDeg: 40.42,
    longitudeDeg: -1.12,
    elevationM: 1100,
    timezone: 'Europe/Madrid',
    minimumAltitudeDeg: 25,
    horizon: [],
    ...changes,
  };
}

/** NGC 281 and M 33, J2000 degrees. */
export const NGC_281 = { name: 'NGC 281', aliases: [], raDeg: 13.2458, decDeg: 56.6219, origin: 'rig-file' } as const;
export const M_33 = { name: 'M 33', aliases: [], raDeg: 23.4621, decDeg: 30.6602, origin: 'rig-file' } as const;

/** UTC ms of an ISO 8601 instant. */
export function ms(iso: string): number {
  const value = Date.parse(iso);
  if (Number.isNaN(value)) throw new Error(`bad instant in a test: ${iso}`);
  return value;
}
