import { byRule, named, type Audit, type DraftedEvent } from './drafted-night.js';

const MIN_EXPOSURES = 20;
/** Nothing holds a night up for less, ms (common practice, no source). */
const SHORTEST_MS = 240_000;
/** What ends a night for good comes while it exposes, or so soon after, ms: a roof is closed later. */
const AT_ONCE_MS = 60_000;

/**
 * Holds during which exposures begin, or that nothing ends and that stand before the first exposure or after the last:
 * a roof that is closed in the morning holds nothing up.
 */
export const held: Audit = ({ drafted }) => {
  const begins = named(drafted, 'exposure-begin').map(({ event }) => event.atMs);
  const ends = named(drafted, 'hold-end').map(({ event }) => event.atMs);
  const [firstMs] = begins;
  const last = named(drafted, 'exposure-begin', 'exposure-end', 'exposure-abort').at(-1)?.event;
  if (begins.length < MIN_EXPOSURES || firstMs === undefined || last === undefined) return [];
  const isNone = (atMs: number): boolean => {
    const overMs = ends.find((end) => end > atMs) ?? Infinity;
    const nextMs = begins.find((begin) => begin > atMs) ?? Infinity;
    const isEndless = overMs === Infinity && (atMs < firstMs || isAfter(last, atMs));
    return isEndless || (nextMs < overMs && nextMs - atMs < SHORTEST_MS);
  };
  return byRule(named(drafted, 'hold-begin')).flatMap(({ rule, event, own }) => {
    const none = own.filter(({ event: { atMs } }) => isNone(atMs)).length;
    if (2 * none <= own.length) return [];
    return [{ rule, event, why: 'exposures begin right after it, or nothing is left to be held up' }];
  });
};

/** Whether the night was over before: what cut its last exposure short may be told a while later. */
function isAfter({ event, atMs: lastMs }: DraftedEvent['event'], atMs: number): boolean {
  return event !== 'exposure-abort' && atMs > lastMs + AT_ONCE_MS;
}
