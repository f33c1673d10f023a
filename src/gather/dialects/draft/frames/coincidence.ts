/** How many instants of a log fall on instants of frames under one shift of its clock. */
export interface Fit {
  /** How far the log is ahead of the frames, ms: the median of the pairs. */
  readonly shiftMs: number;
  /** Instants of the log with a frame of their own. */
  readonly pairs: number;
  /** How far the log is ahead where the frame begins soonest after its line, ms; nine tenths of the pairs are below. */
  readonly soonestMs: number;
}

/** Width in which differences are counted together, and how many of the fullest are looked at, ms. */
const WIDTH_MS = 5000;
const FULLEST = 8;
/** Maximum number of instants on each side that are compared. */
const COMPARED = 400;
const SOONEST = 0.9;

/**
 * The pairs of instants under one shift: each frame belongs to one line.
 *
 * @param times of the log, UTC ms, sorted
 * @param starts of the frames, UTC ms, sorted
 * @param nearMs largest distance of a pair
 */
export function fitAt(times: ArrayLike<number>, starts: ArrayLike<number>, shiftMs: number, nearMs: number): Fit {
  const gapsMs: number[] = [];
  let i = 0;
  let j = 0;
  while (i < times.length && j < starts.length) {
    const gapMs = (times[i] ?? NaN) - (starts[j] ?? NaN);
    if (gapMs < shiftMs - nearMs) i++;
    else if (gapMs > shiftMs + nearMs) j++;
    else {
      gapsMs.push(gapMs);
      i++;
      j++;
    }
  }
  gapsMs.sort((a, b) => a - b);
  return {
    shiftMs: gapsMs[gapsMs.length >> 1] ?? shiftMs,
    pairs: gapsMs.length,
    soonestMs: gapsMs[Math.floor(gapsMs.length * SOONEST)] ?? shiftMs,
  };
}

/** The shifts under which most instants fall on frames, the best first. */
export function bestFits(times: readonly number[], starts: readonly number[], nearMs: number): readonly Fit[] {
  const some = times.slice(0, COMPARED);
  const counts = new Map<number, number>();
  for (const time of some)
    for (const start of starts.slice(0, COMPARED)) {
      const bin = Math.round((time - start) / WIDTH_MS);
      counts.set(bin, (counts.get(bin) ?? 0) + 1);
    }
  const around = (bin: number): number =>
    (counts.get(bin - 1) ?? 0) + (counts.get(bin) ?? 0) + (counts.get(bin + 1) ?? 0);
  const fullest = [...counts.keys()].sort((a, b) => around(b) - around(a)).slice(0, FULLEST);
  return fullest
    .map((bin) => {
      const rough = fitAt(times, starts, bin * WIDTH_MS, WIDTH_MS * 1.5);
      return fitAt(times, starts, rough.shiftMs, nearMs);
    })
    .sort((a, b) => b.pairs - a.pairs || awkward(a.shiftMs) - awkward(b.shiftMs));
}

const QUARTER_MS = 900_000;

/** Of two shifts that explain as much, none is likelier than that of another zone, and that than any other. */
function awkward(shiftMs: number): number {
  const restMs = Math.abs(shiftMs - Math.round(shiftMs / QUARTER_MS) * QUARTER_MS);
  return restMs < 2 * WIDTH_MS ? Math.abs(shiftMs) / QUARTER_MS / 1000 : 1 + Math.abs(shiftMs) / QUARTER_MS;
}
