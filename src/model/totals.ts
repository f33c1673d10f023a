/**
 * Integration per target, filter and train: exposed, kept, doubtful, lost. The only summation of frames, for a night's
 * accounts and for the archive.
 */
import type { Verdict } from '../vocabulary/index.js';
import { groupBy, groupByAll, itemAt, sortedBy } from './collections.js';
import { UNNAMED, type Total, type VerdictTally } from './ledger.js';

/** The frame fields that determine its total and column. */
export interface Judged {
  readonly target?: string | null;
  readonly filter?: string | null;
  readonly train: string;
  readonly verdict: Verdict;
}

/** How frames are counted. */
export interface Tallying<F> {
  /** A frame's length, ms. */
  readonly lengthMs: (frame: F) => number;
  /** What a kept frame counts, ms; its length, if not given. */
  readonly keptMs?: (frame: F) => number;
  /** Key of a target or filter without a name. */
  readonly unnamed?: string;
}

/** Sums frames: targets in order of first appearance, of each its filters, and of each of those the trains. */
export function totalIntegration<F extends Judged>(
  frames: readonly F[],
  { lengthMs, keptMs = lengthMs, unnamed = UNNAMED }: Tallying<F>,
): Total[] {
  const groups = groupByAll(frames, (f) => [f.target ?? unnamed, f.filter ?? unnamed, f.train]);
  const totals = groups.map((members): Total => {
    const first = itemAt(members, 0);
    return {
      target: first.target ?? unnamed,
      filter: first.filter ?? unnamed,
      train: first.train,
      frames: tally(
        members,
        () => 1,
        () => 1,
      ),
      ms: tally(members, lengthMs, keptMs),
    };
  });
  const trains = [...new Set(totals.map(({ train }) => train))];
  return [...groupBy(totals, ({ target }) => target).values()].flatMap((own) =>
    [...groupBy(own, ({ filter }) => filter).values()].flatMap((of) =>
      sortedBy(of, ({ train }) => trains.indexOf(train)),
    ),
  );
}

function tally<F extends Judged>(
  frames: readonly F[],
  weight: (frame: F) => number,
  keptWeight: (frame: F) => number,
): VerdictTally {
  const sums = { taken: 0, kept: 0, doubtful: 0, lost: 0 };
  for (const frame of frames) {
    sums.taken += weight(frame);
    sums[frame.verdict] += frame.verdict === 'kept' ? keptWeight(frame) : weight(frame);
  }
  return sums;
}
