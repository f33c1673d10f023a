/**
 * Guiding was off under an open shutter: paused, the star lost, stopped, or not yet settled after a start. A short
 * stretch makes the frame doubtful, a long one loses it.
 */
import { duration, durationMs, overlapMs, type Activity } from '../../model/index.js';
import type { LossCause } from './cause.js';

function what(activity: Activity, owner: string): string {
  switch (activity.kind) {
    case 'guiding-rest': {
      const who =
        activity.causedBy === undefined
          ? ''
          : activity.causedBy === owner
            ? ' by its own train'
            : ` by ${activity.causedBy}`;
      return `guiding was paused${who}${activity.why ? ` (${activity.why})` : ''}`;
    }
    case 'star-gap':
      return `the guide star was lost${activity.why ? ` (${activity.why})` : ''}`;
    case 'guiding-start':
      return 'guiding was starting and not yet settled';
    default:
      return `guiding was off${activity.why ? ` (${activity.why})` : ''}`;
  }
}

export const guidingOff: LossCause = {
  id: 'guiding-off',
  applies(frame, { guidingOff: spans, rules }) {
    if (spans === null) return [];
    const touched = spans
      .map((activity) => ({ activity, ms: overlapMs(activity.span, frame.exposure) }))
      .filter(({ ms }) => ms > 0);
    const totalMs = touched.reduce((sum, { ms }) => sum + ms, 0);
    if (totalMs <= rules.guidingOffNoticeSeconds * 1000) return [];
    const limitMs = Math.max(rules.guidingOffGraceSeconds * 1000, rules.guidingOffShare * durationMs(frame.exposure));
    const verdict = totalMs > limitMs ? ('lost' as const) : ('doubtful' as const);
    const limit = `${touched.length > 1 ? `${duration(totalMs)} in all, ` : ''}lost above ${duration(limitMs)}`;
    return touched.map(({ activity, ms }) => ({
      kind: 'guiding-off' as const,
      verdict,
      span: activity.span,
      overlapMs: ms,
      causedBy: activity.causedBy,
      evidence: `${what(activity, frame.train)} for ${duration(ms)} of the exposure (${limit})`,
      certainty: activity.certainty,
      sources: activity.sources,
    }));
  },
};
