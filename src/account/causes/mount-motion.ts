/**
 * The mount moved or was settling under an open shutter: stars are drawn into lines, the frame is lost.
 */
import { activityRow, duration, overlapMs } from '../../model/index.js';
import type { LossCause } from './cause.js';

export const mountMotion: LossCause = {
  id: 'mount-motion',
  applies(frame, { motion, rules }) {
    const touched = motion
      .map((activity) => ({ activity, ms: overlapMs(activity.span, frame.exposure) }))
      .filter(({ ms }) => ms > 0);
    const totalMs = touched.reduce((sum, { ms }) => sum + ms, 0);
    const graceMs = rules.motionGraceSeconds * 1000;
    // The grace is for the whole exposure: three short nudges are not three times forgiven.
    if (totalMs <= graceMs) return [];
    return touched.map(({ activity, ms }) => ({
      kind: 'mount-motion' as const,
      verdict: 'lost' as const,
      span: activity.span,
      overlapMs: ms,
      causedBy: activity.causedBy,
      evidence: `${activityRow(activity.kind).motion ?? 'the mount was moving'} for ${duration(ms)} of the exposure (${duration(graceMs)} is forgiven)`,
      certainty: activity.certainty,
      sources: activity.sources,
    }));
  },
};
