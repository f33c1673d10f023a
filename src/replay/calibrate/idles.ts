/** The time between two lights of one train, and what the log reports in it. */
import {
  durationMs,
  interval,
  midpointMs,
  overlapMs,
  partitionPoint,
  sortedBy,
  sum,
  type Activity,
  type DitherCycle,
  type Interval,
  type JudgedFrame,
  type AccountedNight,
} from '../../model/index.js';
import { askedMs } from './lengths.js';
import type { Stretch } from './stretches.js';

export interface Idle {
  readonly before: JudgedFrame;
  readonly after: JudgedFrame;
  readonly span: Interval;
  readonly cycles: readonly DitherCycle[];
  readonly stretch: Stretch | null;
  readonly focus: readonly Activity[];
  readonly filterMs: number;
  /** Another train's refocus had paused the guiding meanwhile. */
  readonly pausedMs: number;
}

/** When the mount had settled again. */
export function cycleEndMs(cycle: DitherCycle): number {
  return cycle.settle?.endMs ?? cycle.move.endMs;
}

/**
 * Every idle of one train, one per pair of neighbouring lights; an idle of length zero if exposures touch or overlap.
 */
export function idlesOf(
  train: string,
  lights: readonly JudgedFrame[],
  night: AccountedNight,
  stretches: readonly Stretch[],
): Idle[] {
  const own = night.timeline.activities.filter((a) => a.train === train && (a.kind === 'focus' || a.kind === 'filter'));
  const pauses = night.timeline.activities.filter(
    (a) => a.kind === 'guiding-rest' && a.causedBy !== undefined && a.causedBy !== train,
  );
  const dithers = sortedBy(night.accounts.dithers, (d) => d.beginMs);
  return lights.slice(1).map((after, i): Idle => {
    const before = lights[i] ?? after;
    const span = interval(Math.min(before.exposure.endMs, after.exposure.startMs), after.exposure.startMs);
    // Both lists are sorted, and searched by thousands of idles.
    const inside = own.slice(
      partitionPoint(own, (a) => a.span.startMs >= span.startMs),
      partitionPoint(own, (a) => a.span.startMs >= span.endMs),
    );
    return {
      before,
      after,
      span,
      cycles: dithers.slice(
        partitionPoint(dithers, (d) => d.beginMs >= span.startMs),
        partitionPoint(dithers, (d) => d.beginMs > span.endMs),
      ),
      stretch: stretches.find((s) => s.span.startMs < span.endMs && s.span.endMs > span.startMs) ?? null,
      focus: inside.filter((a) => a.kind === 'focus'),
      filterMs:
        before.filter === after.filter
          ? 0
          : sum(inside.filter((a) => a.kind === 'filter').map((a) => durationMs(a.span))),
      pausedMs: sum(pauses.map((p) => overlapMs(p.span, span))),
    };
  });
}

/**
 * When something that began within an idle became due: the midpoint of the preceding exposure, dither or pointing. So
 * it falls into the same gap even if the replay is slightly early or late.
 */
export function dueBefore(beginMs: number, idle: Idle): number {
  const { before, cycles, stretch } = idle;
  const gone = [
    ...cycles.map((c) => interval(c.beginMs, Math.max(c.beginMs, cycleEndMs(c)))),
    ...(stretch ? [stretch.span] : []),
  ];
  return gone
    .filter((g) => g.endMs <= beginMs + 1)
    .reduce((latest, g) => Math.max(latest, midpointMs(g)), before.exposure.endMs - Math.round(askedMs(before) / 2));
}
