import { partitionPoint, type GuidingSeries, type Interval } from '../model/index.js';

/** The samples within a span; a view on the same columns. */
export function samplesWithin(series: GuidingSeries, span: Interval): GuidingSeries {
  const from = partitionPoint(series.atMs, (t) => t >= span.startMs);
  const to = partitionPoint(series.atMs, (t) => t >= span.endMs);
  const cut = (column: Float64Array): Float64Array => column.subarray(from, to);
  return {
    ...series,
    atMs: cut(series.atMs),
    raArcsec: cut(series.raArcsec),
    decArcsec: cut(series.decArcsec),
    snr: cut(series.snr),
  };
}
