import { byRule, named, type Audit, type DraftedEvent } from './drafted-night.js';

const MIN_EXPOSURES = 20;
/** No hold is shorter, ms (common practice, no source). */
const SHORTEST_MS = 240_000;
/**
 * The cause of a night's final end occurs during an exposure or this soon after it, ms: closing the roof comes later.
 */
const AT_ONCE_MS = 60_000;

/**
 * Holds during which exposures begin, or that never end and lie before the first or after the last exposure: a roof
 * closed in the morning holds nothing up.
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

/** Whether the night was already over: the reason that cut its last exposure short may be logged a while later. */
function isAfter({ event, atMs: lastMs }: DraftedEvent['event'], atMs: number): boolean {
  return event !== 'exposure-abort' && atMs > lastMs + AT_ONCE_MS;
}
