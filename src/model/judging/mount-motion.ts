/**
 * The mount moved or was settling during the exposure: stars are drawn into lines, the frame is lost.
 */
import { duration, type Rules } from '../../vocabulary/index.js';
import { factsOf, type LossCause } from './cause.js';
import { byDisplacement, drawnText } from './evidence/displacement.js';
import { interruptionCauses, whyInterruptionCleared } from './evidence/interruption.js';
import { starsAreRound, starsAreUsual } from './evidence/pixels.js';
import type { ExposureFacts } from './facts.js';
import { leewayText } from './leeway.js';

export const mountMotion: LossCause = {
  id: 'mount-motion',
  // The grace is for the whole exposure: three short nudges are not three times forgiven.
  judge(facts, rules) {
    if (facts.motionMs <= rules.motionGraceSeconds * 1000) return null;
    // A jump leaves the half maximum round: the pixels can clear only one that hardly any light saw.
    if (facts.awayMs < rules.clearedJumpShare * facts.lengthMs && starsAreUsual(facts, rules))
      return { clearedBy: 'pixels' };
    const seen = byDisplacement(facts.displacement, rules);
    // What a clock that is a little off would explain loses no frame.
    if (isUnsure(facts, rules) && (seen === null || seen === 'lost')) return 'doubtful';
    if (seen !== null) return seen;
    // Neither the guiding, rough as it was, nor the pixels saw the move; what is left of it is a suspicion.
    return facts.displacement !== null && starsAreRound(facts, rules) ? 'doubtful' : 'lost';
  },
  instances(frame, around, verdict) {
    const { motion, rules, displacement, leeway } = around;
    const limit =
      displacement === null
        ? `${duration(rules.motionGraceSeconds * 1000)} is forgiven`
        : drawnText(displacement, rules);
    const clock = isUnsure(factsOf(frame, around), rules) ? leewayText(leeway, frame.train) : '';
    return interruptionCauses('mount-motion', motion, frame, verdict, `${limit}${clock}`);
  },
  whyCleared(frame, around, by) {
    return whyInterruptionCleared(around.motion, frame, around, by);
  },
};

/** Whether no more than is forgiven is left of the motion when the train's clock is off by what nothing would show. */
function isUnsure({ sureMotionMs }: ExposureFacts, rules: Rules): boolean {
  return sureMotionMs <= rules.motionGraceSeconds * 1000;
}
