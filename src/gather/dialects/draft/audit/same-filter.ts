import { byRule, named, type Audit, type DraftedEvent } from './drafted-night.js';

/** Fewer may be changes whose filter was misread. */
const MIN_CHANGES = 20;
const MOSTLY = 0.7;

/** Wheels that repeatedly turn to the filter already in place. */
export const sameFilter: Audit = ({ drafted }) => {
  const turns = named(drafted, 'filter-begin', 'filter-end');
  const last = new Map<string, string>();
  const first = new Set<DraftedEvent>();
  const same = new Set<DraftedEvent>();
  for (const one of turns) {
    const filter = filterOf(one);
    if (filter === undefined) continue;
    const key = `${one.event.event} ${one.event.train ?? ''}`;
    if (!last.has(key)) first.add(one);
    else if (last.get(key) === filter) same.add(one);
    last.set(key, filter);
  }
  return byRule(turns).flatMap(({ rule, event, own }) => {
    const all = own.filter((one) => !first.has(one)).length;
    const count = own.filter((one) => same.has(one)).length;
    if (all < MIN_CHANGES || count < MOSTLY * all) return [];
    return [{ rule, event, why: `${count} of ${all} are to the filter that is already in` }];
  });
};

/** The filter that a wheel turns or turned to. */
function filterOf({ event }: DraftedEvent): string | undefined {
  return event.event === 'filter-begin' || event.event === 'filter-end' ? event.to : undefined;
}
