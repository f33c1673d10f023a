/**
 * What a filter is whose name does not tell it, a number of the wheel, say, by what the rig file states of it.
 */
import { filterMeant, FILTER_NAMES, filterRow, isNarrowband } from '../vocabulary/index.js';
import type { CameraFacts } from './gathered.js';

/** Filters of more nanometres are broad ones: common practice, no source. */
const NARROW_UP_TO_NM = 30;
/** Makers round the middle of a line's filter to a few nanometres. */
const ROUNDED_NM = 3;

/** What a mapping of the rig file says of a filter; names are told apart without regard to case. */
export function byFilter(values: Readonly<Record<string, number>> | undefined, filter: string): number | null {
  const wanted = filter.trim().toLowerCase();
  return Object.entries(values ?? {}).find(([name]) => name.trim().toLowerCase() === wanted)?.[1] ?? null;
}

/**
 * A filter's name as others would have it, where its own says nothing and the train's rig file a narrow band: the line
 * that it passes (`Ha`), else its width (`4 5 nm`). Any other name stays as it is.
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
