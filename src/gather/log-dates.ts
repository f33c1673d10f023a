/**
 * Log times that lie far from every frame: a stamp misread (1970, another year), not another night.
 */
import {
  groupBy,
  itemAt,
  partitionPoint,
  type GuidingSeries,
  type LogEvent,
  type Source,
  type Warning,
} from '../model/index.js';

/** Farther from every frame than this, a log's times are none of this session, ms. */
const NEAR_MS = 2 * 86_400_000;

/**
 * Drops events more than two days from every frame, with one notice per log. Without frames nothing is dropped.
 *
 * @param framesMs begins of dated frames, UTC ms, in any order
 */
export function eventsNearFrames<E extends LogEvent>(
  events: readonly E[],
  framesMs: readonly number[],
): { events: readonly E[]; warnings: Warning[] } {
  if (framesMs.length === 0) return { events, warnings: [] };
  const isNear = nearFrames(framesMs);
  const far = new Set(events.filter((e) => !isNear(e.atMs)));
  if (far.size === 0) return { events, warnings: [] };
  const warnings = [...groupBy([...far], (e) => e.source.file)].flatMap(([file, own]): Warning[] => {
    const total = events.filter((e) => e.source.file === file).length;
    const [first] = own;
    return first ? [leftOut(own.length, `${total} events`, first.atMs, first.source)] : [];
  });
  return { events: events.filter((e) => !far.has(e)), warnings };
}

/**
 * Drops guiding samples more than two days from every frame, with a notice. Without frames nothing is dropped.
 *
 * @param framesMs begins of dated frames, UTC ms, in any order
 */
export function samplesNearFrames(
  series: GuidingSeries,
  framesMs: readonly number[],
): { series: GuidingSeries | null; warnings: Warning[] } {
  if (framesMs.length === 0) return { series, warnings: [] };
  const isNear = nearFrames(framesMs);
  const near = series.atMs.map((atMs) => (isNear(atMs) ? 1 : 0));
  const count = near.reduce((n, is) => n + is, 0);
  const total = series.atMs.length;
  if (count === total) return { series, warnings: [] };
  const firstMs = series.atMs.find((_, i) => near[i] === 0);
  if (firstMs === undefined) return { series, warnings: [] };
  const source = series.sources[0] ?? { file: 'the guiding log' };
  const keep = (column: Float64Array): Float64Array => column.filter((_, i) => near[i] === 1);
  const kept = {
    ...series,
    atMs: keep(series.atMs),
    raArcsec: keep(series.raArcsec),
    decArcsec: keep(series.decArcsec),
  };
  return {
    series: count === 0 ? null : { ...kept, snr: keep(series.snr) },
    warnings: [leftOut(total - count, `${total} guiding samples`, firstMs, source)],
  };
}

function leftOut(count: number, of: string, firstMs: number, source: Source): Warning {
  const date = new Date(firstMs).toISOString().slice(0, 10);
  return {
    code: 'log-far-from-frames',
    message:
      `${count} of ${of} in ${source.file} are more than two days from every frame (the first on ` +
      `${date}) and are left out; check the dialect's date and time pattern, or the log's place in the ` +
      'rig file',
    source,
    count,
  };
}

/** Whether an instant is near one of these frames. */
function nearFrames(framesMs: readonly number[]): (atMs: number) => boolean {
  const sorted = [...framesMs].sort((a, b) => a - b);
  const [firstMs = NaN, lastMs = NaN] = [sorted[0], sorted.at(-1)];
  // Between frames of nights that follow each other everything is near.
  if (sorted.every((ms, i) => i === 0 || ms - itemAt(sorted, i - 1) <= 2 * NEAR_MS))
    return (atMs) => atMs >= firstMs - NEAR_MS && atMs <= lastMs + NEAR_MS;
  return (atMs) => {
    const after = partitionPoint(sorted, (t) => t >= atMs);
    return Math.min((sorted[after] ?? Infinity) - atMs, atMs - (sorted[after - 1] ?? -Infinity)) <= NEAR_MS;
  };
}
