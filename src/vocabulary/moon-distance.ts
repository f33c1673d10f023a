/** Distances that filters keep from the Moon: one table for the report and for the nights ahead. */
import { filterMeant, filterRow, filterWavelengthNm } from './filters.js';

/**
 * Degrees from a full Moon, by the filter's passband: broadband, a line of oxygen or hydrogen in the green and blue, a
 * deep red line. Common practice, no source.
 */
export const MOON_DISTANCE_DEG = { broad: 90, blueLine: 60, redLine: 35 } as const;

/** Lines beyond this wavelength are the deep red ones, nm. */
const DEEP_RED_NM = 600;

/** Whether a filter passes only a deep red line: the most tolerant of moonlight. */
export function isDeepRedLine(filter: string): boolean {
  const wavelengthNm = filterWavelengthNm(filter);
  return isLine(filter) && wavelengthNm !== null && wavelengthNm > DEEP_RED_NM;
}

/** The kind of a filter in {@link MOON_DISTANCE_DEG}. */
export function moonDistanceKind(filter: string): keyof typeof MOON_DISTANCE_DEG {
  return isDeepRedLine(filter) ? 'redLine' : isLine(filter) ? 'blueLine' : 'broad';
}

/**
 * Required fraction of the distance for a smaller Moon: by the root of its illuminated fraction, 0…1. Common practice,
 * no source.
 */
export function moonDistanceShare(illumination: number): number {
  return Math.sqrt(illumination);
}

/**
 * Minimum distance of a narrow band from the Moon, degrees; one with an unknown name is treated like a blue line.
 *
 * @param illumination illuminated fraction of the Moon, 0…1
 */
export function narrowMoonDistanceDeg(filter: string, illumination: number): number {
  return MOON_DISTANCE_DEG[isDeepRedLine(filter) ? 'redLine' : 'blueLine'] * moonDistanceShare(illumination);
}

/**
 * Minimum distance of broadband from the Moon while that is up, degrees. @param illumination illuminated fraction of
 * the Moon, 0…1
 */
export function broadMoonDistanceDeg(illumination: number): number {
  return MOON_DISTANCE_DEG.broad * moonDistanceShare(illumination);
}

function isLine(filter: string): boolean {
  const meant = filterMeant(filter);
  return meant !== null && filterRow(meant).kind === 'narrow';
}
