/** The mount moved or was settling during the exposure: stars are trailed, the frame is lost. */
import { duration, type Rules } from '../../vocabulary/index.js';
import { factsOf, type LossCause } from './cause.js';
import { byDisplacement, drawnText } from './evidence/displacement.js';
import { interruptionCauses, whyInterruptionCleared } from './evidence/interruption.js';
import { starsAreRound, starsAreUsual } from './evidence/pixels.js';
import type { ExposureFacts } from './facts.js';
import { leewayText } from './leeway.js';

export const mountMotion: LossCause = {
  id: 'mount-motion',
  // The tolerance is for the whole exposure: three short nudges do not get it three times.
  judge(facts, rules) {
    if (facts.motionMs <= rules.motionGraceSeconds * 1000) return null;
    // A jump leaves the half maximum round: the pixels can only clear one that hardly any light saw.
    if (facts.awayMs < rules.clearedJumpShare * facts.lengthMs && starsAreUsual(facts, rules))
      return { clearedBy: 'pixels' };
    const seen = byDisplacement(facts.displacement, rules);
    // What a slight clock offset would explain loses no frame.
    if (isUnsure(facts, rules) && (seen === null || seen === 'lost')) return 'doubtful';
    if (seen !== null) return seen;
    // Neither the guiding, however rough, nor the pixels detected the move; what remains is a suspicion.
    return facts.displacement !== null && starsAreRound(facts, rules) ? 'doubtful' : 'lost';
  },
  instances(frame, around, verdict) {
    const { motion, rules, displacement, leeway } = around;
    const limit =
      displacement === null
        ? `${duration(rules.motionGraceSeconds * 1000)} is tolerated`
        : drawnText(displacement, rules);
    const clock = isUnsure(factsOf(frame, around), rules) ? leewayText(leeway, frame.train) : '';
    return interruptionCauses('mount-motion', motion, frame, verdict, `${limit}${clock}`);
  },
  whyCleared(frame, around, by) {
    return whyInterruptionCleared(around.motion, frame, around, by);
  },
};

/** Whether at most the tolerated motion is left for some undetectable offset of the train's clock. */
function isUnsure({ sureMotionMs }: ExposureFacts, rules: Rules): boolean {
  return sureMotionMs <= rules.motionGraceSeconds * 1000;
}
