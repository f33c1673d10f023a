/**
 * The shutter times in one stream (a train's headers, or its log), and the mount's times from the reference: the data
 * from which an offset between two clocks is estimated. All times UTC ms on the clock that wrote them.
 */
import { median, partitionPoint, type Interval, itemAt } from '../../model/index.js';

/** One exposure on one clock. */
export interface Shutter {
  readonly beginMs: number;
  readonly endMs: number;
  /** When the train was ready for the mount to move: its log entry, its saved file, or the end of its readout. */
  readonly readyMs?: number;
  /** When its train began preparing it: a refocus or a filter change after the previous one. */
  readonly workMs?: number;
}

/** One pause of the mount according to the reference. */
export interface MountPause {
  /** The shutter must be closed from here… */
  readonly moveMs: number;
  /** …until here, when exposures begin again. */
  readonly resumeMs: number;
  /** `log`: the move is in a log. `gap`: known only from the reference train resuming at `resumeMs`. */
  readonly by: 'log' | 'gap';
  /** `log`: the settling's end is logged. `begin`: it was over by the time the reference train resumed. */
  readonly resumesBy: 'log' | 'begin';
  /**
   * If the reference train refocused or changed its filter first, for which others may wait: when it exposed again,
   * less what it usually takes from the mount's rest to that.
   */
  readonly laterMs?: number;
}

/**
 * A period just before the exposure that ends a gap, during which a mount that dithered was certainly still settling,
 * ms. Common practice, no source.
 */
const SURELY_SETTLING_MS = 6000;
/** A gap this little longer than the readout holds no dither, and neither does one longer than this, ms. */
const SHORTEST_PAUSE_MS = 6000;
const LONGEST_PAUSE_MS = 900_000;
/** If a log has no settling, the mount is assumed to be at rest this long after the move, ms. */
const LONGEST_SETTLING_MS = 180_000;

/**
 * The mount's pauses for dithers from the log that steers it. If it does not report settling, that lasted until the
 * steering train exposed again: if it were assumed to end with the move, every companion would seem to wait for
 * nothing, and a clock off by a whole cycle would explain that.
 *
 * @param begins of that train's exposures, sorted
 */
export function loggedPauses(
  moves: readonly Interval[],
  settlings: readonly Interval[],
  begins: readonly number[] = [],
): MountPause[] {
  const sorted = [...moves].sort((a, b) => a.startMs - b.startMs);
  return sorted.map(({ startMs, endMs }, i) => {
    const untilMs = Math.min(sorted[i + 1]?.startMs ?? Infinity, endMs + LONGEST_SETTLING_MS);
    const settled = settlings.filter((s) => s.startMs >= startMs && s.startMs < untilMs && s.endMs <= untilMs);
    const movedMs = Math.max(startMs, endMs);
    const again = settled.length > 0 ? undefined : begins[partitionPoint(begins, (ms) => ms >= movedMs)];
    if (again !== undefined && again <= untilMs)
      return { moveMs: startMs, resumeMs: again, by: 'log', resumesBy: 'begin' };
    const resumeMs = settled.reduce((latest, s) => Math.max(latest, s.endMs), movedMs);
    return { moveMs: startMs, resumeMs, by: 'log', resumesBy: 'log' };
  });
}

/** Work that begins this soon after the mount's rest is part of the pause, ms. */
const AT_REST_MS = 10_000;

/**
 * The pauses, with the reference train's own work after them. A companion that waits for each refocus of the pilot
 * begins minutes after the mount had settled: if nothing explained that, a clock off by a whole cycle would, because
 * it makes the long rest end with the next pause.
 *
 * @param shutters of the reference train, sorted by begin
 */
export function withOwnWork(pauses: readonly MountPause[], shutters: readonly Shutter[]): MountPause[] {
  const next = (pause: MountPause): Shutter | undefined =>
    shutters[partitionPoint(shutters, ({ beginMs }) => beginMs >= pause.moveMs)];
  const delays = pauses.flatMap((pause): number[] => {
    const delayMs = (next(pause)?.beginMs ?? Infinity) - pause.resumeMs;
    return delayMs <= AT_REST_MS ? [delayMs] : [];
  });
  const usualMs = delays.length === 0 ? 0 : median(delays);
  return pauses.map((pause) => {
    const { beginMs, workMs } = next(pause) ?? {};
    if (beginMs === undefined || workMs === undefined || pause.resumesBy === 'begin') return pause;
    const isThen = workMs >= pause.moveMs && workMs <= pause.resumeMs + AT_REST_MS;
    return isThen && beginMs > pause.resumeMs + AT_REST_MS ? { ...pause, laterMs: beginMs - usualMs } : pause;
  });
}

/** The mount's probable pauses if no log reports them: the longer gaps between the reference train's own exposures. */
export function gapPauses(shutters: readonly Shutter[]): MountPause[] {
  const readoutMs = readoutOf(shutters);
  return shutters.slice(1).flatMap((after, i): MountPause[] => {
    const before = shutters[i];
    if (!before) return [];
    const restMs = after.beginMs - before.endMs - readoutMs;
    if (restMs < SHORTEST_PAUSE_MS || restMs > LONGEST_PAUSE_MS) return [];
    return [{ moveMs: after.beginMs - SURELY_SETTLING_MS, resumeMs: after.beginMs, by: 'gap', resumesBy: 'begin' }];
  });
}

/** A shutter and when its train was ready. */
export interface ReadyShutter extends Shutter {
  /** Stated, or its end plus the usual readout. */
  readonly readyMs: number;
  /** Not before this: as stated, or its end. How long readout or program overhead took is unknown. */
  readonly notBeforeMs: number;
}

/** Shutters sorted by begin, each with a readiness. */
export function withReadiness(shutters: readonly Shutter[], statedReadyMs: readonly number[]): ReadyShutter[] {
  const sorted = [...shutters].sort((a, b) => a.beginMs - b.beginMs);
  const readoutMs = readoutOf(sorted);
  const ready = [...statedReadyMs].sort((a, b) => a - b);
  let r = 0;
  return sorted.map((shutter, i) => {
    const nextMs = sorted[i + 1]?.beginMs ?? Infinity;
    while (r < ready.length && itemAt(ready, r) < shutter.endMs) r++;
    const stated = ready[r];
    const own = stated !== undefined && stated < nextMs ? stated : undefined;
    const statedMs = own ?? shutter.readyMs;
    return {
      ...shutter,
      readyMs: statedMs ?? Math.min(nextMs, shutter.endMs + readoutMs),
      notBeforeMs: statedMs ?? shutter.endMs,
    };
  });
}

/** The shortest usual gap between exposures, ms: the median of the lower quarter, 0 when there is none. */
function readoutOf(shutters: readonly Shutter[]): number {
  const gaps = shutters
    .slice(1)
    .flatMap((s, i) => {
      const before = shutters[i];
      return before && s.beginMs >= before.endMs ? [s.beginMs - before.endMs] : [];
    })
    .sort((a, b) => a - b);
  const shortest = gaps.slice(0, Math.max(1, Math.floor(gaps.length / 2)));
  return shortest.length === 0 ? 0 : Math.min(30_000, median(shortest));
}

/** The usual time from one begin to the next, ms. */
export function cadenceMs(shutters: readonly Shutter[]): number {
  const steps = shutters.slice(1).map((s, i) => s.beginMs - (shutters[i]?.beginMs ?? s.beginMs));
  return steps.length === 0 ? 300_000 : Math.max(10_000, median(steps));
}
