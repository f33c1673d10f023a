/** Settling seen in the stars: is the first frame after a dither worse than the others? */
import type { Aim, MeasuredSettling } from '../../model/index.js';
import { median } from '../../model/index.js';

/** A run needs two others beside its first frame. */
const FEWEST_FRAMES = 3;

/**
 * The first frame of each run compared with the others of the run. An offset in the mean pointing indicates a shutter
 * that opened before the mount was still; so do size and elongation. The first run of the night follows no dither and
 * is left out. `null` if no dither is followed by three frames.
 */
export function measuredSettling(runs: readonly (readonly Aim[])[]): MeasuredSettling | null {
  const long = runs.slice(1).filter((run) => run.length >= FEWEST_FRAMES);
  if (long.length === 0) return null;
  return {
    dithers: long.length,
    firstAwayPx: median(long.map((run) => away(run, 0))),
    othersAwayPx: median(long.flatMap((run) => run.slice(1).map((_, i) => away(run.slice(1), i)))),
    fwhmRatio: ratioOf(long, (a) => a.fwhm),
    elongationRatio: ratioOf(long, (a) => a.elongation),
  };
}

/** Distance of one frame from the centre of the others. */
function away(run: readonly Aim[], at: number): number {
  const one = run[at];
  const others = run.filter((_, i) => i !== at);
  if (!one || others.length === 0) return 0;
  return Math.hypot(one.x - median(others.map((a) => a.x)), one.y - median(others.map((a) => a.y)));
}

function ratioOf(runs: readonly (readonly Aim[])[], of: (aim: Aim) => number | null): number | null {
  const ratios = runs.flatMap((run) => {
    const [first, ...others] = run.map(of);
    const known = others.filter((v): v is number => v !== null && v > 0);
    return first !== undefined && first !== null && first > 0 && known.length > 0 ? [first / median(known)] : [];
  });
  return ratios.length > 0 ? median(ratios) : null;
}
