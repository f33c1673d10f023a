/**
 * Guiding was off during the exposure: paused, star lost, stopped, or not yet settled after a start. A moment is
 * negligible, a short interval makes the frame doubtful, a long one loses it.
 */
import { duration, type Rules } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import { factsOf, touchedMs, touching, type LossCause } from './cause.js';
import { byDisplacement, drawnText } from './evidence/displacement.js';
import { interruptionCauses, whyInterruptionCleared } from './evidence/interruption.js';
import { starsAreRound, trailing } from './evidence/pixels.js';
import { guidingOffLimitMs, type ExposureFacts } from './facts.js';
import { leewayText } from './leeway.js';

export const guidingOff: LossCause = {
  id: 'guiding-off',
  judge(facts, rules) {
    const { unguidedMs, sureUnguidedMs, lengthMs, displacement } = facts;
    if (unguidedMs === null || sureUnguidedMs === null || unguidedMs <= rules.guidingOffNoticeSeconds * 1000)
      return null;
    // Trailed stars are judged by 'trailed'; it names the interruption.
    if (trailing(facts, rules) !== null) return null;
    if (starsAreRound(facts, rules)) return { clearedBy: 'pixels' };
    const seen = byDisplacement(displacement, rules);
    // What a slight clock offset would explain loses no frame.
    if (seen === 'lost' && isUnsure(facts, rules)) return 'doubtful';
    if (seen !== null) return seen;
    return sureUnguidedMs > guidingOffLimitMs(lengthMs, rules) ? 'lost' : 'doubtful';
  },
  instances(frame, around, verdict) {
    const { guidingOff: spans, rules, displacement, leeway } = around;
    const off = spans ?? [];
    const all = touching(off, frame.exposure).length > 1 ? `${duration(touchedMs(off, frame.exposure))} in all, ` : '';
    const limit = `${all}${
      displacement === null
        ? `lost above ${duration(guidingOffLimitMs(durationMs(frame.exposure), rules))}`
        : drawnText(displacement, rules)
    }`;
    const clock = isUnsure(factsOf(frame, around), rules) ? leewayText(leeway, frame.train) : '';
    return interruptionCauses('guiding-off', off, frame, verdict, `${limit}${clock}`);
  },
  whyCleared(frame, around, by) {
    return whyInterruptionCleared(around.guidingOff ?? [], frame, around, by);
  },
};

/** Whether at most a negligible time is left for some undetectable offset of the train's clock. */
function isUnsure({ sureUnguidedMs }: ExposureFacts, rules: Rules): boolean {
  return sureUnguidedMs !== null && sureUnguidedMs <= rules.guidingOffNoticeSeconds * 1000;
}
