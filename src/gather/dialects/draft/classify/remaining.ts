import type { Kind, Slot } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';

/** Exposures of a kind of lines that state their seconds. */
interface Timed {
  readonly begin: Kind;
  readonly seconds: Slot;
  readonly unitSeconds: number;
}

/** It is told this much later than the exposure begins, and means the same end. */
const LATER_MS = 3000;
const SAME_END_MS = 1500;
/** Lines that state what remains of another exposure, of all of a kind. */
const REMAINING = 0.7;

/** Leaves out what tells how long the shutter still stays open: `half of frame 3, 120 s to go` opens none. */
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

/** When the exposures begin and are over, ms. */
function spansOf({ begin, seconds, unitSeconds }: Timed): (readonly [number, number])[] {
  return begin.atMs.flatMap((atMs, i) => {
    const endMs = atMs + numberIn(seconds.perLine[i]) * unitSeconds * 1000;
    return Number.isNaN(endMs) ? [] : [[atMs, endMs] as const];
  });
}
