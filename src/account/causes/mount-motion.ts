/**
 * The mount moved or was settling under an open shutter: stars are drawn into lines, the frame is lost.
 */
import { overlapMs, type Activity } from '../../model/index.js';
import { inWords, type LossCause } from './cause.js';

const WHAT: Partial<Record<Activity['kind'], string>> = {
  slew: 'the mount was slewing',
  centre: 'the target was being centred',
  flip: 'the mount was turning to the other side of the pier',
  'dither-move': 'the mount was dithering',
  settle: 'the mount was settling after the dither',
};

export const mountMotion: LossCause = {
  id: 'mount-motion',
  label: 'mount moved',
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
      evidence: `${WHAT[activity.kind] ?? 'the mount was moving'} for ${inWords(ms)} under the open shutter (${inWords(graceMs)} is forgiven)`,
      certainty: activity.certainty,
      sources: activity.sources,
    }));
  },
};
