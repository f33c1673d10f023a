import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';

/** Sides of a filter change this near to each other are told by no word. */
const TIE = 0.5;
const IN_PLACE = 1.2;

/**
 * Lines that name the wheel or its filter and nothing that becomes of it, in a log where no other line tells of a
 * change either: of the two sides most such logs leave out the beginning, since what counts is the filter in place.
 */
export function filterInPlace(own: ReadonlyMap<Kind, Map<EventName, number>>): void {
  const told = [...own.values()].filter((evidence) => evidence.has('filter-begin') || evidence.has('filter-end'));
  const sideOf = (evidence: ReadonlyMap<EventName, number>): number =>
    (evidence.get('filter-begin') ?? 0) - (evidence.get('filter-end') ?? 0);
  if (told.some((evidence) => Math.abs(sideOf(evidence)) > TIE)) return;
  for (const [{ slots }, evidence] of own) {
    const end = evidence.get('filter-end');
    if (end !== undefined && slots.some(({ type }) => type === 'filter')) evidence.set('filter-end', end + IN_PLACE);
  }
}
