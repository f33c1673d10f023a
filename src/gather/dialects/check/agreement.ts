import type { LogEvent } from '../../../model/index.js';

/** A frame of the session as far as a log can be compared with it. */
export interface FrameTimes {
  readonly file: string;
  readonly beginMs: number;
  readonly seconds: number;
}

/** How the exposures of a log agree with the frames' headers. */
export interface Agreement {
  readonly frames: number;
  readonly exposures: number;
  /** Frames whose shutter a line of the log opens. */
  readonly agreeing: number;
  /** The log's clock against the headers, median over the pairs, seconds; positive: the log is ahead. */
  readonly aheadSeconds: number;
  /** A whole number of quarter hours by which the log's times are off, 0 when they are not. */
  readonly zoneMinutes: number;
}

/** A line and a header of one exposure are this far apart at most. */
const NEAR_MS = 8000;
const QUARTER_MS = 900_000;
/** Zones are up to this far apart. */
const MAX_QUARTERS = 26 * 4;

/** Compares begins of exposures with frames; looks for another zone where hardly any agree. `null` without either. */
export function agreement(events: readonly LogEvent[], frames: readonly FrameTimes[]): Agreement | null {
  const begins = events.filter(({ event }) => event === 'exposure-begin').map(({ atMs }) => atMs);
  if (begins.length === 0 || frames.length === 0) return null;
  const starts = frames.map(({ beginMs }) => beginMs).sort((a, b) => a - b);
  let best = { quarters: 0, gaps: gapsAt(begins, starts, 0) };
  if (best.gaps.length < 0.5 * Math.min(begins.length, starts.length)) {
    for (let quarters = -MAX_QUARTERS; quarters <= MAX_QUARTERS; quarters++) {
      const gaps = gapsAt(begins, starts, quarters * QUARTER_MS);
      if (gaps.length > best.gaps.length) best = { quarters, gaps };
    }
  }
  const sorted = best.gaps.sort((a, b) => a - b);
  return {
    frames: frames.length,
    exposures: begins.length,
    agreeing: sorted.length,
    aheadSeconds: (sorted[Math.floor(sorted.length / 2)] ?? 0) / 1000,
    zoneMinutes: best.quarters * 15,
  };
}

/** For each begin that has a frame nearby, how far the log is ahead, ms. */
function gapsAt(begins: readonly number[], starts: readonly number[], shiftMs: number): number[] {
  return begins.flatMap((begin) => {
    const nearest = nearestIn(starts, begin - shiftMs);
    const gap = begin - shiftMs - nearest;
    return Math.abs(gap) <= NEAR_MS ? [gap] : [];
  });
}

function nearestIn(sorted: readonly number[], value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) < value) low = middle + 1;
    else high = middle;
  }
  const after = sorted[low] ?? Infinity;
  const before = sorted[low - 1] ?? -Infinity;
  return value - before < after - value ? before : after;
}

/** The agreement as a sentence. */
export function agreementNote({ frames, exposures, agreeing, aheadSeconds, zoneMinutes }: Agreement): string {
  const head =
    `${agreeing} of ${exposures} exposures of the log have a frame that begins within ` +
    `${NEAR_MS / 1000} s (${frames} frames in the session)`;
  if (agreeing === 0) return `${head}: are the time zone and the date right?`;
  const clock = `the log is ${Math.abs(aheadSeconds).toFixed(1)} s ${aheadSeconds < 0 ? 'behind' : 'ahead'}`;
  if (zoneMinutes === 0) return `${head}; ${clock}.`;
  const hours = `${zoneMinutes < 0 ? '−' : '+'}${Math.abs(zoneMinutes) / 60} h`;
  return `${head}, once the log is taken to be off by ${hours}: "zone" in the dialect is wrong by that.`;
}
