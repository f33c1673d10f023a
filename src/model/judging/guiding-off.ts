/**
 * Guiding was off during the exposure: resting, the star lost, stopped, or not yet settled after a start. A moment of it
 * goes unnoticed, a short stretch makes the frame doubtful, a long one loses it.
 */
import { duration } from '../../vocabulary/index.js';
import type { Activity } from '../activity.js';
import { durationMs } from '../interval.js';
import { touchedMs, touching, type LossCause } from './cause.js';
import { guidingOffLimitMs } from './facts.js';

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
  judge({ unguidedMs, lengthMs }, rules) {
    if (unguidedMs === null || unguidedMs <= rules.guidingOffNoticeSeconds * 1000) return null;
    return unguidedMs > guidingOffLimitMs(lengthMs, rules) ? 'lost' : 'doubtful';
  },
  instances(frame, { guidingOff: spans, rules }, verdict) {
    const off = spans ?? [];
    const touched = touching(off, frame.exposure);
    const all = touched.length > 1 ? `${duration(touchedMs(off, frame.exposure))} in all, ` : '';
    const limit = `${all}lost above ${duration(guidingOffLimitMs(durationMs(frame.exposure), rules))}`;
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
