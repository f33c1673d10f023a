import type { Interval, Night } from '../../model/index.js';

const SAME_STRETCH_MS = 45 * 60_000;

/**
 * Spans in which a target was imaged by any train: frames less than three quarters of an hour apart are one stretch.
 */
export function imagedSpans(night: Night, target: string): Interval[] {
  const spans: { startMs: number; endMs: number }[] = [];
  for (const { exposure } of night.accounts.lights.filter((frame) => frame.target === target)) {
    const last = spans[spans.length - 1];
    if (last && exposure.startMs - last.endMs < SAME_STRETCH_MS) last.endMs = Math.max(last.endMs, exposure.endMs);
    else spans.push({ startMs: exposure.startMs, endMs: exposure.endMs });
  }
  return spans;
}
