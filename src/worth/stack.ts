/** The worth of a stack of unequal frames. */

/** Frames count as equally long up to this multiple of the shortest of them: shutters and logs differ by less. */
const ONE_LENGTH = 1.1;

/**
 * Frames of each length separately, shortest first: nobody averages half a second for a bright core with minutes for
 * the surroundings. The worths of the stacks add up.
 */
export function stacksByLength<F extends { readonly exposureMs: number }>(frames: readonly F[]): F[][] {
  const stacks: F[][] = [];
  for (const frame of [...frames].sort((a, b) => a.exposureMs - b.exposureMs)) {
    const last = stacks.at(-1);
    const shortest = last?.[0];
    if (last && shortest && frame.exposureMs <= ONE_LENGTH * shortest.exposureMs) last.push(frame);
    else stacks.push([frame]);
  }
  return stacks;
}

/**
 * Worth of a plain mean of frames: N²/Σ(1/e), each `e` a frame's effective time. 0 for no frames, or if one is worth
 * nothing.
 */
export function plainMeanWorth(effective: readonly number[]): number {
  if (effective.length === 0) return 0;
  let inverse = 0;
  for (const e of effective) inverse += 1 / e;
  return effective.length ** 2 / inverse;
}

/**
 * Whether a further frame lowers a plain mean: 1/e > (2 + 1/N)·mean(1/e) over the N frames in it. For frames of one
 * length the same holds for their shares.
 */
export function lowersMean(frame: number, stack: readonly number[]): boolean {
  const count = stack.length;
  if (count === 0) return false;
  let inverse = 0;
  for (const e of stack) inverse += 1 / e;
  return 1 / frame > (2 + 1 / count) * (inverse / count);
}

/**
 * How many of the frames, best first, make the most valuable plain mean. Every frame left out would lower it.
 *
 * The best stack of a given size holds the best frames, so only sizes need to be tried. Stopping at the first frame
 * that lowers the mean would be wrong: one good frame and a hundred poor ones are worth more together.
 *
 * @param effective effective times, largest first
 */
export function bestMeanSize(effective: readonly number[]): number {
  let [best, worth, inverse] = [0, 0, 0];
  effective.forEach((e, index) => {
    inverse += 1 / e;
    const size = index + 1;
    if (size ** 2 / inverse >= worth) [best, worth] = [size, size ** 2 / inverse];
  });
  return best;
}
