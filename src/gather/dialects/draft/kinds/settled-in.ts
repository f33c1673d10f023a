import type { EventName } from '../../../../model/index.js';
import type { Part, Ranged } from './parts.js';

/** So soon after the move of a dither the guiding has settled, ms, in this share of the rows. */
const SETTLES_MS = [1000, 120_000] as const;
const SETTLES = 0.9;

/** The third time of rows that state when a dither's move began and ended: the guiding has settled then. */
export function settledIn({ kind }: Part, range: Ranged | undefined, event: EventName | null): EventName | null {
  if (event !== 'dither-end' || range === undefined) return null;
  const [least, most] = SETTLES_MS;
  const after = kind.atMs.map((atMs, i) => atMs - (range.kind.atMs[i] ?? NaN));
  const soon = after.filter((ms) => ms >= least && ms <= most);
  return soon.length >= SETTLES * after.length ? 'settling-end' : null;
}
