/** Guiding over a span: root mean square about zero error and about the mean, per axis and combined. */
import { partitionPoint, type GuidingSeries, type GuidingSummary, type Interval } from '../model/index.js';

/** Fewer samples are not enough for an exposure. */
const MIN_SAMPLES = 3;

/**
 * Summarises the samples within the span, without those in `except` (such as the dither's own excursions). `null` when
 * there are too few.
 */
export function summariseGuiding(
  series: GuidingSeries,
  span: Interval,
  except: readonly Interval[] = [],
): GuidingSummary | null {
  const first = partitionPoint(series.atMs, (t) => t >= span.startMs);
  let samples = 0;
  let ra1 = 0;
  let dec1 = 0;
  let ra2 = 0;
  let dec2 = 0;
  let peak2 = 0;
  for (let i = first; i < series.atMs.length && series.atMs[i]! < span.endMs; i++) {
    const atMs = series.atMs[i]!;
    if (except.some((e) => atMs >= e.startMs && atMs < e.endMs)) continue;
    const ra = series.raArcsec[i]!;
    const dec = series.decArcsec[i]!;
    if (!Number.isFinite(ra) || !Number.isFinite(dec)) continue;
    samples++;
    ra1 += ra;
    dec1 += dec;
    ra2 += ra * ra;
    dec2 += dec * dec;
    peak2 = Math.max(peak2, ra * ra + dec * dec);
  }
  if (samples < MIN_SAMPLES) return null;
  const offset2 = (ra1 / samples) ** 2 + (dec1 / samples) ** 2;
  return {
    samples,
    raRmsArcsec: Math.sqrt(ra2 / samples),
    decRmsArcsec: Math.sqrt(dec2 / samples),
    totalRmsArcsec: Math.sqrt((ra2 + dec2) / samples),
    peakArcsec: Math.sqrt(peak2),
    jitterRmsArcsec: Math.sqrt(Math.max(0, (ra2 + dec2) / samples - offset2)),
    offsetArcsec: Math.sqrt(offset2),
  };
}
