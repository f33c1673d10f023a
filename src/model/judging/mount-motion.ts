/**
 * The mount moved or was settling during the exposure: stars are drawn into lines, the frame is lost.
 */
import { duration } from '../../vocabulary/index.js';
import { touching, type LossCause } from './cause.js';
import { byDisplacement, drawnText } from './evidence/displacement.js';
import { disturbanceText, mainDisturbance } from './evidence/disturbance.js';
import { starsAreRound, starsAreUsual } from './evidence/pixels.js';
import { clearedText } from './evidence/words.js';

export const mountMotion: LossCause = {
  id: 'mount-motion',
  // The grace is for the whole exposure: three short nudges are not three times forgiven.
  judge(facts, rules) {
    if (facts.motionMs <= rules.motionGraceSeconds * 1000) return null;
    // A jump leaves the half maximum round: the pixels can clear only one that hardly any light saw.
    if (facts.awayMs < rules.clearedJumpShare * facts.lengthMs && starsAreUsual(facts, rules))
      return { clearedBy: 'pixels' };
    const seen = byDisplacement(facts.displacement, rules);
    if (seen !== null) return seen;
    // Neither the guiding nor the pixels saw the move; what is left of it is a suspicion.
    return facts.isMoveUnseen && starsAreRound(facts, rules) ? 'doubtful' : 'lost';
  },
  instances(frame, { motion, rules, displacement, isMoveUnseen }, verdict) {
    const unseen = isMoveUnseen ? ', no guiding sample stands out' : '';
    const limit =
      displacement === null
        ? `${duration(rules.motionGraceSeconds * 1000)} is forgiven${unseen}`
        : drawnText(displacement, rules);
    return touching(motion, frame.exposure).map(({ activity, ms }) => ({
      kind: 'mount-motion' as const,
      verdict,
      span: activity.span,
      overlapMs: ms,
      causedBy: activity.causedBy,
      evidence: `${disturbanceText(activity, frame.train)} for ${duration(ms)} of the exposure (${limit})`,
      certainty: activity.certainty,
      sources: activity.sources,
    }));
  },
  whyCleared(frame, around, by) {
    const main = mainDisturbance(around.motion, frame.exposure);
    if (main === undefined) return '';
    return clearedText(
      `${disturbanceText(main.activity, frame.train)} for ${duration(main.ms)} of the exposure`,
      around,
      by,
    );
  },
};
