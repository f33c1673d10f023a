import type { Kind, Slot } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';

/** Exposures of a kind of line that states their length. */
interface Timed {
  readonly begin: Kind;
  readonly seconds: Slot;
  readonly unitSeconds: number;
}

/** Maximum delay after the exposure's begin of a line about the same end. */
const LATER_MS = 3000;
const SAME_END_MS = 1500;
/** Fraction of a kind's lines that state the remaining time of another exposure. */
const REMAINING = 0.7;

/** Drops kinds that report how long the shutter remains open: `half of frame 3, 120 s to go` does not open one. */
export function withoutRemaining<One extends Timed>(found: readonly One[]): One[] {
  const spans = found.map((one) => ({ one, spans: spansOf(one) }));
  return spans.flatMap(({ one, spans: own }) => {
    const isRemaining = spans.some(
      ({ one: other, spans: longer }) =>
        other !== one &&
        own.filter(([atMs, endMs]) =>
          longer.some(([fromMs, toMs]) => fromMs < atMs - LATER_MS && Math.abs(toMs - endMs) < SAME_END_MS),
        ).length >=
          REMAINING * own.length,
    );
    return isRemaining ? [] : [one];
  });
}

/** When the exposures begin and end, ms. */
function spansOf({ begin, seconds, unitSeconds }: Timed): (readonly [number, number])[] {
  return begin.atMs.flatMap((atMs, i) => {
    const endMs = atMs + numberIn(seconds.perLine[i]) * unitSeconds * 1000;
    return Number.isNaN(endMs) ? [] : [[atMs, endMs] as const];
  });
}
