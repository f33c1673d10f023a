import type { EventName } from '../../../../model/index.js';
import { tookUnit } from '../group-names.js';
import type { Kind } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';

/** A span of at most this length, s, and this fraction of other exposures, was a readout or a delay. */
const SHORT_S = 20;
const SHARE = 0.25;
/** An aborted exposure is read out as well, and is ended by another line. */
const OFTEN = 0.8;

/**
 * Kinds that seem to end exposures but state durations far shorter than those of other kinds: a readout of 2.8 s, a
 * slow response. Nobody takes one frame of 3 s among many of 300 s.
 */
export function tooShort(taken: ReadonlyMap<Kind, EventName>): Kind[] {
  const ends = [...taken].flatMap(([kind, event]) =>
    event === 'exposure-end' ? [{ kind, longest: longestOf(kind) }] : [],
  );
  return ends.flatMap(({ kind, longest }) => {
    if (!(longest <= SHORT_S)) return [];
    const longer = ends.filter((other) => longest <= SHARE * other.longest && other.kind.count > OFTEN * kind.count);
    return longer.length > 0 ? [kind] : [];
  });
}

/** The longest duration that the lines of a kind state, s; NaN if none. */
function longestOf({ slots }: Kind): number {
  const lengths = slots.flatMap((slot) => {
    const unit = slot.type === 'number' ? tookUnit(slot) : null;
    return unit === null ? [] : slot.perLine.map((value) => numberIn(value) * unit);
  });
  return lengths.length === 0 ? NaN : Math.max(...lengths.filter((value) => !Number.isNaN(value)));
}
