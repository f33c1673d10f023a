/**
 * How rarely a train that ignores the mount is found closed for so long: the time from any instant to its next begin
 * has the density P(interval > x) ÷ mean interval (residual life of a renewal process; D. R. Cox, Renewal Theory,
 * 1962; from memory). Where exposures are much shorter than a dither, a gap that spans one is rare, however late the
 * train resumes after it.
 */
/** Of a few intervals none is rarer than this. */
const FEWEST = 20;

/** @returns of a wait, ms, one over its density for a train that ignores the mount, ms */
export function chanceOf({
  shutters,
  cadenceMs,
}: {
  readonly shutters: readonly { readonly beginMs: number }[];
  readonly cadenceMs: number;
}): (waitMs: number) => number {
  const intervalsMs = Float64Array.from(
    shutters.slice(1).map(({ beginMs }, i) => beginMs - (shutters[i]?.beginMs ?? beginMs)),
  ).sort();
  const count = Math.max(FEWEST, intervalsMs.length);
  return (waitMs: number): number => {
    // Nothing is as frequent: no search for most.
    if (waitMs <= cadenceMs || intervalsMs.length < FEWEST) return cadenceMs;
    let low = 0;
    let high = intervalsMs.length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (intervalsMs[middle]! > waitMs) high = middle;
      else low = middle + 1;
    }
    return (cadenceMs * count) / Math.max(1, intervalsMs.length - low);
  };
}
