/**
 * The mount moved or was settling during the exposure: stars are drawn into lines, the frame is lost.
 */
import { activityRow, duration } from '../../vocabulary/index.js';
import { touching, type LossCause } from './cause.js';

export const mountMotion: LossCause = {
  id: 'mount-motion',
  // The grace is for the whole exposure: three short nudges are not three times forgiven.
  judge: ({ motionMs }, rules) => (motionMs > rules.motionGraceSeconds * 1000 ? 'lost' : null),
  instances(frame, { motion, rules }, verdict) {
    return touching(motion, frame.exposure).map(({ activity, ms }) => ({
      kind: 'mount-motion' as const,
      verdict,
      span: activity.span,
      overlapMs: ms,
      causedBy: activity.causedBy,
      evidence: `${activityRow(activity.kind).motion ?? 'the mount was moving'} for ${duration(ms)} of the exposure (${duration(rules.motionGraceSeconds * 1000)} is forgiven)`,
      certainty: activity.certainty,
      sources: activity.sources,
    }));
  },
};
