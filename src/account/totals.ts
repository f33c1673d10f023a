/**
 * Integration per target, filter and train: taken, kept, doubtful, lost.
 */
import { durationMs, groupBy, UNNAMED, type JudgedFrame, type Total, type VerdictTally } from '../model/index.js';

export { UNNAMED };

/** Sums the lights. Sorted by target, then filter, then train, as first seen. */
export function totalIntegration(lights: readonly JudgedFrame[]): Total[] {
  const groups = groupBy(lights, (f) => JSON.stringify([f.target ?? UNNAMED, f.filter ?? UNNAMED, f.train]));
  return [...groups.values()].map((members): Total => {
    const first = members[0]!;
    return {
      target: first.target ?? UNNAMED,
      filter: first.filter ?? UNNAMED,
      train: first.train,
      frames: tally(members, () => 1),
      ms: tally(members, (f) => durationMs(f.exposure)),
    };
  });
}

function tally(frames: readonly JudgedFrame[], weight: (frame: JudgedFrame) => number): VerdictTally {
  const sums = { taken: 0, kept: 0, doubtful: 0, lost: 0 };
  for (const frame of frames) {
    sums.taken += weight(frame);
    sums[frame.verdict] += weight(frame);
  }
  return sums;
}
