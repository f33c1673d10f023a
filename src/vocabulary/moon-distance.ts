/** Distances that filters keep from the Moon: one table for the report and for the nights ahead. */
import { filterMeant, filterRow, filterWavelengthNm } from './filters.js';

/**
 * Degrees from a full Moon, by what the filter passes: the whole of a band, a line of oxygen or hydrogen in the green
 * and blue, a deep red line. Common practice, no source.
 */
export const MOON_DISTANCE_DEG = { broad: 90, blueLine: 60, redLine: 35 } as const;

/** Lines beyond this wavelength are the deep red ones, nm. */
const DEEP_RED_NM = 600;

/** Whether a filter passes a deep red line alone: these bear most moonlight. */
export function isDeepRedLine(filter: string): boolean {
  const wavelengthNm = filterWavelengthNm(filter);
  return isLine(filter) && wavelengthNm !== null && wavelengthNm > DEEP_RED_NM;
}

/** The kind of a filter in {@link MOON_DISTANCE_DEG}. */
export function moonDistanceKind(filter: string): keyof typeof MOON_DISTANCE_DEG {
  return isDeepRedLine(filter) ? 'redLine' : isLine(filter) ? 'blueLine' : 'broad';
}

/**
 * What is asked of a distance from a smaller Moon, as a share: by the root of its lit share, 0…1. Common practice, no
 * source.
 */
export function moonDistanceShare(illumination: number): number {
  return Math.sqrt(illumination);
}

/**
 * Degrees that a narrow band keeps from the Moon; one whose name its user alone knows keeps what a blue line does.
 *
 * @param illumination lit share of the Moon, 0…1
 */
export function narrowMoonDistanceDeg(filter: string, illumination: number): number {
  return MOON_DISTANCE_DEG[isDeepRedLine(filter) ? 'redLine' : 'blueLine'] * moonDistanceShare(illumination);
}

/** Degrees that broadband keeps from the Moon while that is up. @param illumination lit share of the Moon, 0…1 */
export function broadMoonDistanceDeg(illumination: number): number {
  return MOON_DISTANCE_DEG.broad * moonDistanceShare(illumination);
}

function isLine(filter: string): boolean {
  const meant = filterMeant(filter);
  return meant !== null && filterRow(meant).kind === 'narrow';
}
