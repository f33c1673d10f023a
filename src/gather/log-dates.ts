/**
 * Log times that lie far from every frame: a stamp misread (1970, another year), not another night.
 */
import { groupBy, type LogEvent, type Warning } from '../model/index.js';

/** Farther from every frame than this, a log's times are none of this session, ms. */
const NEAR_MS = 2 * 86_400_000;

/**
 * Leaves out events more than two days from every frame, and says so once per log. Without frames nothing is known.
 *
 * @param framesMs begins of dated frames, UTC ms, in any order
 */
export function eventsNearFrames(
  events: readonly LogEvent[],
  framesMs: readonly number[],
): { events: readonly LogEvent[]; warnings: Warning[] } {
  if (framesMs.length === 0) return { events, warnings: [] };
  const sorted = [...framesMs].sort((a, b) => a - b);
  const far = new Set(events.filter((e) => distanceMs(sorted, e.atMs) > NEAR_MS));
  if (far.size === 0) return { events, warnings: [] };
  const warnings = [...groupBy([...far], (e) => e.source.file)].map(([file, own]): Warning => {
    const first = own[0];
    const total = events.filter((e) => e.source.file === file).length;
    const date = first ? new Date(first.atMs).toISOString().slice(0, 10) : '';
    return {
      code: 'log-far-from-frames',
      message: `${own.length} of ${total} events in ${file} lie more than two days from every frame (the first on ${date}) and are left out; check the dialect's date and time pattern, or the log's place in the rig file`,
      source: first?.source ?? { file },
      count: own.length,
    };
  });
  return { events: events.filter((e) => !far.has(e)), warnings };
}

function distanceMs(sorted: readonly number[], atMs: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? Infinity) < atMs) low = middle + 1;
    else high = middle;
  }
  return Math.min((sorted[low] ?? Infinity) - atMs, atMs - (sorted[low - 1] ?? -Infinity));
}
