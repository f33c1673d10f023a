import { partitionPoint, type GuidingSeries, type Interval } from '../model/index.js';

/**
 * The samples within a span; a view on the same columns where their clock is right.
 *
 * @param aheadMs how far the clock that wrote them is ahead: it is taken off
 */
export function samplesWithin(series: GuidingSeries, span: Interval, aheadMs = 0): GuidingSeries {
  const from = partitionPoint(series.atMs, (t) => t - aheadMs >= span.startMs);
  const to = partitionPoint(series.atMs, (t) => t - aheadMs >= span.endMs);
  const cut = (column: Float64Array): Float64Array => column.subarray(from, to);
  return {
    ...series,
    atMs: aheadMs === 0 ? cut(series.atMs) : cut(series.atMs).map((t) => t - aheadMs),
    raArcsec: cut(series.raArcsec),
    decArcsec: cut(series.decArcsec),
    snr: cut(series.snr),
  };
}
