/**
 * The mount moved or was settling during the exposure: stars are drawn into lines, the frame is lost.
 */
import { duration } from '../../vocabulary/index.js';
import type { LossCause } from './cause.js';
import { byDisplacement, drawnText } from './evidence/displacement.js';
import { interruptionCauses, whyInterruptionCleared } from './evidence/interruption.js';
import { starsAreRound, starsAreUsual } from './evidence/pixels.js';

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
    // Neither the guiding, rough as it was, nor the pixels saw the move; what is left of it is a suspicion.
    return facts.displacement !== null && starsAreRound(facts, rules) ? 'doubtful' : 'lost';
  },
  instances(frame, { motion, rules, displacement }, verdict) {
    const limit =
      displacement === null
        ? `${duration(rules.motionGraceSeconds * 1000)} is forgiven`
        : drawnText(displacement, rules);
    return interruptionCauses('mount-motion', motion, frame, verdict, limit);
  },
  whyCleared(frame, around, by) {
    return whyInterruptionCleared(around.motion, frame, around, by);
  },
};
