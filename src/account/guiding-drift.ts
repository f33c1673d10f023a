/**
 * How far the field moved while nobody guided it: the first errors after the stretch against the last before it.
 */
import {
  GUIDING_OFF_KINDS,
  median,
  partitionPoint,
  type Activity,
  type GuidingSeries,
  type InterruptionDrift,
} from '../model/index.js';

/** Samples before the stretch whose median is where the star stood. */
const BEFORE = 7;
/** The first sample after the stretch counts if it comes within this, ms: later the guiding has pulled the star back. */
const SOON_MS = 30_000;
/** Samples older than this say nothing of where the star stood, ms. */
const RECENT_MS = 120_000;

/** Measures the drift of every stretch without guiding that has samples on both sides. */
export function interruptionDrifts(series: GuidingSeries, activities: readonly Activity[]): InterruptionDrift[] {
  return activities
    .filter((a) => GUIDING_OFF_KINDS.includes(a.kind))
    .flatMap((activity): InterruptionDrift[] => {
      const after = partitionPoint(series.atMs, (t) => t >= activity.span.endMs);
      const before = partitionPoint(series.atMs, (t) => t >= activity.span.startMs);
      if (after >= series.atMs.length || before < BEFORE) return [];
      if (series.atMs[after]! - activity.span.endMs > SOON_MS) return [];
      if (activity.span.startMs - series.atMs[before - 1]! > RECENT_MS) return [];
      const raArcsec = series.raArcsec[after]! - median([...series.raArcsec.subarray(before - BEFORE, before)]);
      const decArcsec = series.decArcsec[after]! - median([...series.decArcsec.subarray(before - BEFORE, before)]);
      const driftArcsec = Math.hypot(raArcsec, decArcsec);
      if (!Number.isFinite(driftArcsec)) return [];
      return [
        { span: activity.span, kind: activity.kind, causedBy: activity.causedBy, raArcsec, decArcsec, driftArcsec },
      ];
    });
}
