/** Dither cycles: when each train was ready, when the mount moved and settled, and who delayed whom. */
import {
  indexSpans,
  interval,
  partitionPoint,
  type Activity,
  type DitherCycle,
  type DitherWait,
  type Frame,
  type IntervalIndex,
} from '../model/index.js';

import type { ClockLeeway } from './clock-leeway.js';

/** A settling belongs to the dither whose move ended at most this long before, ms. */
const SETTLE_FOLLOWS_MS = 10_000;
/** A train whose last exposure ended longer ago than this took no part in the cycle, ms. */
const STILL_IMAGING_MS = 1_800_000;

/**
 * Rebuilds the cycles.
 *
 * @param frames every train's, sorted by start
 * @param activities the timeline's, sorted by start
 * @param leeways possible offsets of the trains' clocks from the mount's: a train ready this soon after the move began
 * was ready for it
 */
export function ditherCycles(
  trains: readonly string[],
  frames: readonly Frame[],
  activities: readonly Activity[],
  leeways: ReadonlyMap<string, ClockLeeway> = new Map(),
): DitherCycle[] {
  const moves = activities.filter((a) => a.kind === 'dither-move');
  const settles = indexed(activities.filter((a) => a.kind === 'settling'));
  const perTrain = trains.map((id) => ({
    id,
    leewayMs: leeways.get(id)?.steadyMs ?? 0,
    frames: frames.filter((f) => f.train === id),
    ready: indexed(activities.filter((a) => a.kind === 'dither-ready' && a.train === id)),
    busy: indexed(
      activities.filter((a) => a.train === id && (a.kind === 'readout' || a.kind === 'focus' || a.kind === 'filter')),
    ),
  }));
  return moves.map((move, i) => {
    const beginMs = move.span.startMs;
    const nextBeginMs = moves[i + 1]?.span.startMs ?? Infinity;
    const settle = settles
      .touching(interval(beginMs, Math.max(beginMs, Math.min(nextBeginMs, move.span.endMs + SETTLE_FOLLOWS_MS + 1))))
      .find((s) => s.span.startMs >= beginMs);
    const previousEndMs = moves[i - 1]?.span.endMs ?? -Infinity;
    const waits = Object.fromEntries(perTrain.map((t) => [t.id, waitOf(t, beginMs, previousEndMs)]));
    const took = Object.entries(waits).filter((entry): entry is [string, DitherWait] => entry[1] !== null);
    const last = took.reduce<[string, DitherWait] | null>((a, b) => (!a || b[1].readyMs > a[1].readyMs ? b : a), null);
    return {
      beginMs,
      move: move.span,
      settle: settle?.span,
      pixels: move.facts?.pixels,
      waits,
      holder: took.length >= 2 && last ? last[0] : null,
      certainty: move.certainty,
    };
  });
}

function waitOf(
  train: { leewayMs: number; frames: readonly Frame[]; ready: IntervalIndex<Activity>; busy: IntervalIndex<Activity> },
  beginMs: number,
  previousEndMs: number,
): DitherWait | null {
  const next = partitionPoint(train.frames, (f) => f.exposure.startMs >= beginMs);
  // A train that exposes no more that night waits for nothing, whatever its program logs.
  if (next === train.frames.length) return null;
  // The instant before the move and the instant itself: a readiness may end there, or have length zero.
  const near = train.ready.touching(interval(beginMs - 1, beginMs + 1 + train.leewayMs));
  const logged = near.findLast((r) => r.span.startMs <= beginMs) ?? near[0];
  if (logged) {
    const readyMs = Math.min(beginMs, logged.span.startMs);
    return { readyMs, waitMs: beginMs - readyMs, certainty: 'measured' };
  }
  const last = train.frames[next - 1];
  if (!last || last.exposure.endMs > beginMs + train.leewayMs || beginMs - last.exposure.endMs > STILL_IMAGING_MS)
    return null;
  if (last.exposure.endMs < previousEndMs) return null;
  // Without a logged readiness the train was ready when its frame was read out and nothing else kept it busy.
  const doneMs = train.busy
    .touching(interval(Math.min(beginMs, last.exposure.endMs), beginMs))
    .reduce((latest, a) => Math.max(latest, a.span.endMs), last.exposure.endMs);
  const readyMs = Math.min(beginMs, doneMs);
  return { readyMs, waitMs: beginMs - readyMs, certainty: 'inferred' };
}

function indexed(activities: readonly Activity[]): IntervalIndex<Activity> {
  return indexSpans(activities, (a) => a.span);
}
