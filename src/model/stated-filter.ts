/** The kind of a filter whose name does not imply it, such as a wheel number, from the rig file. */
import { filterMeant, FILTER_NAMES, filterRow, isNarrowband } from '../vocabulary/index.js';
import type { CameraFacts } from './gathered.js';

/** Filters with a larger bandwidth, nanometres, are broadband: common practice, no source. */
const NARROW_UP_TO_NM = 30;
/** Makers round the central wavelength of a line filter to a few nanometres. */
const ROUNDED_NM = 3;

/** What a mapping in the rig file says about a filter; names are compared case-insensitively. */
export function byFilter(values: Readonly<Record<string, number>> | undefined, filter: string): number | null {
  const wanted = filter.trim().toLowerCase();
  return Object.entries(values ?? {}).find(([name]) => name.trim().toLowerCase() === wanted)?.[1] ?? null;
}

/**
 * A generic name for a filter whose own name is uninformative but which the rig file states to be narrowband: the line
 * that it passes (`Ha`), else its width (`4 5 nm`). Any other name is unchanged.
 */
export function statedFilter(
  filter: string,
  train: string,
  cameras: readonly Pick<CameraFacts, 'id' | 'filterWidthsNm' | 'filterWavelengthsNm'>[],
): string {
  if (filterMeant(filter) !== null || isNarrowband(filter)) return filter;
  const facts = cameras.find(({ id }) => id === train);
  const widthNm = byFilter(facts?.filterWidthsNm, filter);
  if (widthNm === null || widthNm > NARROW_UP_TO_NM) return filter;
  const middleNm = byFilter(facts?.filterWavelengthsNm, filter);
  const line = FILTER_NAMES.map((name) => ({ name, ...filterRow(name) })).find(
    ({ kind, wavelengthNm }) =>
      kind === 'narrow' &&
      wavelengthNm !== null &&
      middleNm !== null &&
      Math.abs(wavelengthNm - middleNm) <= Math.min(ROUNDED_NM, Math.max(1, widthNm / 2)),
  );
  return line?.name ?? `${filter} ${widthNm} nm`;
}
